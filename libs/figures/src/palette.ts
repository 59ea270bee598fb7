import { type Ink } from './scene.js';

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
  },
  dark: {
    ink: '#ECE8E1',
    petrol: '#67C3D0',
    limit: '#ECE8E1',
    muted: '#A9B4BF',
    faint: '#3B4147',
    wash: '#1F3B41',
    paper: '#16191C',
  },
  print: {
    ink: '#1D2125',
    petrol: '#0E5A66',
    limit: '#1D2125',
    muted: '#55606B',
    faint: '#D3D3D3',
    wash: '#D9E6E8',
    paper: '#FFFFFF',
  },
} as const satisfies Record<string, Record<Ink, string>>;

export type Palette = Record<Ink, string>;
