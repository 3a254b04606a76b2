import { startTransition, useEffect, useState } from 'react';
import type { Desk, Scene } from './desk.ts';

/**
 * The scene for the slower parts of the page: they follow in a transition, which the next keystroke
 * may overtake. What has to be there within the keystroke listens to the desk itself.
 */
export function useScene(desk: Desk): Scene {
  const [scene, setScene] = useState(desk.now);
  useEffect(() => {
    const follow = () => startTransition(() => setScene(desk.now()));
    follow();
    return desk.subscribe(follow);
  }, [desk]);
  return scene;
}
