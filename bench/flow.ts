/** The flow that is measured: the one with the deepest circuit and the most faults and checks. */
export const measured = 'low-supply';
