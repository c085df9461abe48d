/**
 * Sets what Ink and its colours read from the environment, once and for good, when they are loaded: so it comes
 * before that. Colour goes out for a NO_COLOR that is not empty. This face is only opened at a terminal with a
 * person at it, so whatever says that nobody is there is not believed.
 */
export function prepareEnvironment(env: NodeJS.ProcessEnv): void {
  env.NODE_ENV ??= 'production';
  if (env.NO_COLOR) env.FORCE_COLOR = '0';
  delete env.CI;
  delete env.CONTINUOUS_INTEGRATION;
}
