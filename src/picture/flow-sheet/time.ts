/** "2:03": hours and minutes from the start. */
export function clockText(minutes: number): string {
  const whole = Math.max(0, Math.round(minutes));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** "20 min", "2 h 5 min" */
export function durationText(minutes: number): string {
  const whole = Math.max(0, Math.round(minutes));
  if (whole < 60) return `${whole}\u202fmin`;
  const rest = whole % 60;
  return `${Math.floor(whole / 60)}\u202fh${rest === 0 ? '' : `\u00a0${rest}\u202fmin`}`;
}

/** "at 2:03 for 8 min" */
export const spanText = (start_min: number, duration_min: number): string =>
  duration_min < 0.5
    ? `at ${clockText(start_min)}`
    : `at ${clockText(start_min)} for ${durationText(duration_min)}`;
