import type { Input, Prompt } from '../../dialogue/messages.ts';

/** What was answered or asked for, in words: a choice by its label. */
export function echo(input: Input, prompt: Prompt | undefined): string {
  if ('answer' in input)
    return prompt?.choices?.find((choice) => choice.id === input.answer)?.label ?? input.answer;
  return [`/${input.do}`, ...(input.text === undefined ? [] : [input.text])].join(' ');
}
