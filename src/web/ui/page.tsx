import { useEffect } from 'react';
import type { ReactNode } from 'react';
import { NavLink } from 'react-router';
import { useOnline } from './online.ts';
import './page.css';

/** The frame of every page: where one can go, and the page's one answer below. */
export function Page({
  title,
  children,
}: {
  /** For the window and for a screen reader; the page sets its own heading. */
  readonly title: string;
  readonly children: ReactNode;
}) {
  const online = useOnline();
  useEffect(() => {
    document.title = `${title} · Weighboat`;
  }, [title]);
  return (
    <>
      <a className="skip" href="#main">
        To the page
      </a>
      <header className="masthead">
        <NavLink to="/" end className="name">
          Weighboat
        </NavLink>
        <nav aria-label="Weighboat">
          <NavLink to="/" end>
            Experiments
          </NavLink>
          <NavLink to="/spectra">Spectra</NavLink>
          <NavLink to="/help">Sentences</NavLink>
          <NavLink to="/settings">Laboratory</NavLink>
        </nav>
        <span className="state" role="status">
          {online ? '' : 'No network'}
        </span>
      </header>
      <main id="main" className="page" tabIndex={-1}>
        {children}
      </main>
    </>
  );
}
