import type { Ink } from './scene.js';

/** Colours of the inks. `print` is `light` on white paper. */
export const PALETTES = {
  light: {
    ink: '#1D2125',
    petrol: '#0E5A66',
    limit: '#1D2125',
    muted: '#55606B',
    faint: '#D3D0C9',
    wash: '#D5E3E5',
    paper: '#FBF9F5',
    good: '#00745A',
    caution: '#8A5A00',
    bad: '#B23A00',
    open: '#55606B',
  },
  dark: {
    ink: '#ECE8E1',
    petrol: '#67C3D0',
    limit: '#ECE8E1',
    muted: '#A9B4BF',
    faint: '#3B4147',
    wash: '#1F3B41',
    paper: '#16191C',
    good: '#3CC9A0',
    caution: '#F0B441',
    bad: '#FF8A5C',
    open: '#A9B4BF',
  },
  print: {
    ink: '#1D2125',
    petrol: '#0E5A66',
    limit: '#1D2125',
    muted: '#55606B',
    faint: '#D3D3D3',
    wash: '#D9E6E8',
    paper: '#FFFFFF',
    good: '#00745A',
    caution: '#8A5A00',
    bad: '#B23A00',
    open: '#55606B',
  },
} as const satisfies Record<string, Record<Ink, string>>;

export type Palette = Record<Ink, string>;
