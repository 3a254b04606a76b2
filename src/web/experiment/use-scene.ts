import { startTransition, useEffect, useState } from 'react';
import { afterFrame } from './after-frame.ts';
import type { Desk, Scene } from './desk.ts';

/**
 * The scene for the slower parts of the page: they follow when the frame of the keystroke is painted,
 * in a transition, which the next keystroke may overtake. What has to be there within the keystroke
 * listens to the desk itself.
 */
export function useScene(desk: Desk): Scene {
  const [scene, setScene] = useState(desk.now);
  useEffect(() => {
    let asked = false;
    let left = false;
    const follow = () => {
      asked = false;
      if (!left) startTransition(() => setScene(desk.now()));
    };
    const end = desk.subscribe(() => {
      if (asked) return;
      asked = true;
      afterFrame(follow);
    });
    follow();
    return () => {
      left = true;
      end();
    };
  }, [desk]);
  return scene;
}
