import * as z from 'zod';

type Schema = z.core.$ZodType;

/** The keys that a schema knows for the object at `path` in `value`: what an unknown key is compared with. */
export function keysAt(schema: Schema, value: unknown, path: readonly PropertyKey[]): string[] {
  let schemas = bare(schema, value);
  let at = value;
  for (const step of path) {
    at = property(at, step);
    schemas = schemas.flatMap((each) => below(each, step)).flatMap((each) => bare(each, at));
  }
  const keys = schemas.flatMap((each) => (each instanceof z.ZodObject ? Object.keys(each.shape) : []));
  return [...new Set(keys)];
}

/** A value inside another, or undefined. */
export function property(value: unknown, step: PropertyKey): unknown {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
  return Object.getOwnPropertyDescriptor(value, step)?.value;
}

/** Without defaults, options and unions; of a union by kind only the kind that `value` names, if it names one. */
function bare(schema: Schema, value: unknown): Schema[] {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault || schema instanceof z.ZodNullable) {
    return bare(schema.unwrap(), value);
  }
  if (schema instanceof z.ZodIntersection) return [...bare(schema.def.left, value), ...bare(schema.def.right, value)];
  if (schema instanceof z.ZodDiscriminatedUnion) return named(schema, value).flatMap((each) => bare(each, value));
  if (schema instanceof z.ZodUnion) return schema.options.flatMap((each) => bare(each, value));
  return [schema];
}

function named(union: z.ZodDiscriminatedUnion, value: unknown): readonly Schema[] {
  const key = union.def.discriminator;
  const fits = union.options.filter((option) => {
    const literal = option instanceof z.ZodObject ? property(option.shape, key) : undefined;
    return literal instanceof z.ZodType && literal.safeParse(property(value, key)).success;
  });
  return fits.length > 0 ? fits : union.options;
}

function below(schema: Schema, step: PropertyKey): Schema[] {
  if (schema instanceof z.ZodObject) {
    const field = property(schema.shape, step);
    return field instanceof z.ZodType ? [field] : [];
  }
  if (schema instanceof z.ZodRecord) return [schema.valueType];
  if (schema instanceof z.ZodArray) return [schema.element];
  if (schema instanceof z.ZodTuple) return schema.def.items.slice(Number(step), Number(step) + 1);
  return [];
}
