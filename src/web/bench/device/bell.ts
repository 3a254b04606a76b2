let context: AudioContext | undefined;

/** A browser lets a page sound only after a touch: called in the handler of one. */
export function readyBell(): void {
  try {
    context ??= new AudioContext();
    void context.resume();
  } catch {
    // A device without sound still shows that the time is over.
  }
}

const BEEPS_s = [0, 0.35, 0.7];
/** On and off in turn. */
const SHAKES_ms = [300, 150, 300, 150, 300];
const PITCH_Hz = 880;
const LENGTH_s = 0.2;

/** Three beeps, and a shake where the device has one. */
export function ringBell(): void {
  const { userActivation, vibrate } = navigator as Partial<Navigator>;
  // Refused, with a complaint, on a page that nobody has touched yet.
  if (userActivation?.hasBeenActive) vibrate?.call(navigator, SHAKES_ms);
  if (context?.state !== 'running') return;
  for (const after_s of BEEPS_s) {
    const start = context.currentTime + after_s;
    const tone = context.createOscillator();
    const volume = context.createGain();
    tone.frequency.value = PITCH_Hz;
    // Without a slope at its ends a tone clicks.
    volume.gain.setValueAtTime(0, start);
    volume.gain.linearRampToValueAtTime(0.4, start + 0.02);
    volume.gain.linearRampToValueAtTime(0, start + LENGTH_s);
    tone.connect(volume).connect(context.destination);
    tone.start(start);
    tone.stop(start + LENGTH_s);
  }
}
