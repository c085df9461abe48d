import type { Prompt } from '../../dialogue/messages.ts';
import type { Sent } from '../desk.ts';

/** What was answered or asked for, in words: a choice by its label. */
export function echo(input: Sent, prompt: Prompt | undefined): string {
  if ('call' in input) return `/${input.call}`;
  if ('answer' in input)
    return prompt?.choices?.find((choice) => choice.id === input.answer)?.label ?? input.answer;
  return [`/${input.do}`, ...(input.text === undefined ? [] : [input.text])].join(' ');
}
