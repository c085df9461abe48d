// Stands in for a package that is asked for and never used.
export default {};
