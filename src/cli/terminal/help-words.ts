/**
 * How `--help` describes an option: as commander does, but without defaults that carry no
 * information.
 */
import { Help, type Option } from 'commander';

const PLAIN = new Help();

export function optionDescription(option: Option): string {
  const { defaultValue } = option;
  const saysNothing =
    defaultValue === false || (Array.isArray(defaultValue) && defaultValue.length === 0);
  if (!saysNothing) return PLAIN.optionDescription(option);
  const bare = Object.create(option, { defaultValue: { value: undefined } }) as Option;
  return PLAIN.optionDescription(bare);
}
