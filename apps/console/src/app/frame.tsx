import { useEffect, useLayoutEffect, useRef } from 'react';
import { NavLink, Outlet, useLocation } from 'react-router';
import { useMe } from '../features/people/me.js';
import { SignedInPerson } from '../features/people/signed-in-person.js';
import { DigitsSwitch, UnitSwitch } from '../parts/units/unit-switch.js';
import './frame.css';
import { LightSwitch } from './light.js';
import { nounsFor } from './nouns.js';
import { ScanField } from './scan-field.js';

/** So many nouns find room in the bar of a narrow screen; the others stand under "More". */
const IN_THE_BAR = 4;

/** A rail of nouns, one scan-or-type field, and the sheet. On a narrow screen the rail is a bar at the bottom. */
export function Frame() {
  const sheet = useRef<HTMLElement>(null);
  const { duties } = useMe();
  const nouns = nounsFor(duties);
  useFocusOnArrival(sheet);
  // A list of contents stands below the rail's nouns; the page itself carries no style of its own.
  useLayoutEffect(() => document.documentElement.style.setProperty('--nouns', `${nouns.length}`), [nouns.length]);
  return (
    <>
      <a className="skip" href="#sheet">
        To the sheet
      </a>
      <nav className="rail" aria-label="Breakbook">
        <NavLink className="name" to="/lots" aria-label="Breakbook, to the lots">
          <svg viewBox="0 0 40 20" aria-hidden="true">
            <path d="M1 17 24 3l1.5 10H39" fill="none" stroke="currentColor" strokeWidth="2" strokeLinejoin="bevel" />
          </svg>
          <span>Breakbook</span>
        </NavLink>
        <ul>
          {nouns.map(({ word, address }, place) => (
            <li key={address} className={place < IN_THE_BAR ? undefined : 'beyond'}>
              <NavLink to={address}>{word}</NavLink>
            </li>
          ))}
          <li className="more">
            <button type="button" popoverTarget="reading">
              More
            </button>
          </li>
        </ul>
        <div className="foot">
          <SignedInPerson />
        </div>
      </nav>
      <header className="top">
        <ScanField />
        <div className="controls" id="reading" popover="auto">
          <ul className="narrow others">
            {nouns.slice(IN_THE_BAR).map(({ word, address }) => (
              <li key={address}>
                <NavLink to={address} onClick={() => document.getElementById('reading')?.hidePopover()}>
                  {word}
                </NavLink>
              </li>
            ))}
          </ul>
          <UnitSwitch />
          <DigitsSwitch />
          <LightSwitch />
          <div className="narrow">
            <SignedInPerson />
          </div>
        </div>
      </header>
      <main id="sheet" ref={sheet} tabIndex={-1}>
        <Outlet />
      </main>
    </>
  );
}

/** After a link is followed, reading goes on at the new sheet and not in the rail. */
function useFocusOnArrival(sheet: { readonly current: HTMLElement | null }): void {
  const { pathname } = useLocation();
  const first = useRef(pathname);
  useEffect(() => {
    if (first.current === pathname) return;
    first.current = '';
    window.scrollTo(0, 0);
    sheet.current?.focus({ preventScroll: true });
  }, [pathname, sheet]);
}
