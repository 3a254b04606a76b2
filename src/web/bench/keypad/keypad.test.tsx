// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { useState } from 'react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Typing } from '../typed/typed-number.ts';
import { Keypad } from './keypad.tsx';

afterEach(cleanup);

function Tested({
  labels = ['mass'],
  typing = { sign: '.', minus: false },
  onEnter = () => {},
  onClose = () => {},
}: {
  readonly labels?: readonly string[];
  readonly typing?: Typing;
  readonly onEnter?: (texts: readonly string[]) => void;
  readonly onClose?: () => void;
}) {
  const [texts, setTexts] = useState(labels.map(() => ''));
  return (
    <Keypad
      title="sodium borohydride, weighed"
      aside="plan 0.150 g"
      slots={labels.map((label, i) => ({ label, text: texts[i]! }))}
      unit="g"
      typing={typing}
      question=""
      enterWord="Enter it"
      onText={(slot, text) => setTexts(texts.map((each, i) => (i === slot ? text : each)))}
      onEnter={() => onEnter(texts)}
      onClose={onClose}
    />
  );
}

const tap = (name: string) => fireEvent.click(screen.getByRole('button', { name }));
const lines = () => screen.getAllByRole<HTMLInputElement>('textbox');

describe('the keypad', () => {
  it('writes digits and one decimal sign, and deletes', () => {
    render(<Tested />);
    for (const key of ['0', 'decimal point', '1', '5', 'decimal point', '9']) tap(key);
    tap('Delete');
    expect(lines()[0]!.value).toBe('0.15');
  });

  it('has the decimal sign of the laboratory, and a minus only where one makes sense', () => {
    const { rerender } = render(<Tested />);
    expect(screen.queryByRole('button', { name: 'minus' })).toBeNull();
    rerender(<Tested typing={{ sign: ',', minus: true }} />);
    for (const key of ['5', 'decimal comma', '2', 'minus']) tap(key);
    expect(lines()[0]!.value).toBe('-5,2');
  });

  it('takes a keyboard in its line, and drops what makes no number', () => {
    render(<Tested />);
    expect(document.activeElement).toBe(lines()[0]);
    fireEvent.change(lines()[0]!, { target: { value: '1,12 g' } });
    expect(lines()[0]!.value).toBe('1.12');
  });

  it('takes a keyboard while one of its keys has the focus', () => {
    render(<Tested />);
    const five = screen.getByRole('button', { name: '5' });
    five.focus();
    fireEvent.keyDown(five, { key: '7' });
    fireEvent.keyDown(five, { key: '2' });
    fireEvent.keyDown(five, { key: 'Backspace' });
    expect(lines()[0]!.value).toBe('7');
  });

  it('enters what stands, and closes with Escape', () => {
    const onEnter = vi.fn();
    const onClose = vi.fn();
    render(<Tested onEnter={onEnter} onClose={onClose} />);
    tap('3');
    tap('Enter it');
    expect(onEnter).toHaveBeenCalledWith(['3']);
    fireEvent.keyDown(lines()[0]!, { key: 'Escape' });
    expect(onClose).toHaveBeenCalledTimes(1);
  });

  it('asks for both ends of a range before it enters', () => {
    const onEnter = vi.fn();
    render(<Tested labels={['from', 'to']} onEnter={onEnter} />);
    for (const key of ['9', '6']) tap(key);
    tap('Enter it');
    expect(onEnter).not.toHaveBeenCalled();
    expect(document.activeElement).toBe(lines()[1]);
    for (const key of ['9', '8']) tap(key);
    tap('Enter it');
    expect(onEnter).toHaveBeenCalledWith(['96', '98']);
  });
});
