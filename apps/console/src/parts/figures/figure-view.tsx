import type { Scene } from '@breakbook/figures';
import { useEffect, useId, useLayoutEffect, useRef, useState } from 'react';
import './figure-view.css';
import { Marks } from './marks.js';

/** Figures are laid out in points for print; on a screen their words need the size of small text. */
const PIXELS_PER_POINT = 1.72;
/** Before the page is measured, and where there is no screen. */
const USUAL_WIDTH = 760;

interface FigureProps {
  /** Draws the figure for a width in points. */
  draw: (width: number) => Scene;
  /** In a list the picture stands alone; its caption is left out. */
  caption?: boolean;
  /** Hears where the picture was pressed, in points from its left edge, and how wide it is drawn. */
  onPick?: (x: number, width: number) => void;
}

/** A figure drawn for the width it has, with its caption. */
export function Figure({ draw, caption = true, onPick }: FigureProps) {
  const box = useRef<HTMLElement>(null);
  const width = useWidth(box);
  const scene = draw(width / PIXELS_PER_POINT);
  usePick(box, onPick);
  return (
    <figure className={onPick ? 'figure pickable' : 'figure'} ref={box}>
      <SceneView scene={scene} />
      {caption && <figcaption>{scene.caption}</figcaption>}
    </figure>
  );
}

function SceneView({ scene }: { scene: Scene }) {
  const id = useId();
  return (
    <svg
      viewBox={`0 0 ${scene.width} ${scene.height}`}
      width={Math.round(scene.width * PIXELS_PER_POINT)}
      height={Math.round(scene.height * PIXELS_PER_POINT)}
      role="img"
      aria-labelledby={`${id}-title`}
      aria-describedby={`${id}-alt`}
    >
      <title id={`${id}-title`}>{scene.title}</title>
      <desc id={`${id}-alt`}>{scene.alt}</desc>
      <Marks marks={scene.marks} />
    </svg>
  );
}

/** Pressing the picture is a short way for whoever has a pointer; what it gives can be typed as well. */
function usePick(box: { readonly current: HTMLElement | null }, onPick: FigureProps['onPick']): void {
  useEffect(() => {
    const element = box.current;
    if (!element || !onPick) return undefined;
    const pressed = (event: MouseEvent) => {
      const picture = element.querySelector('svg')?.getBoundingClientRect();
      if (!picture || event.clientX < picture.left || event.clientX > picture.right) return;
      const width = element.clientWidth / PIXELS_PER_POINT;
      onPick(((event.clientX - picture.left) / picture.width) * width, width);
    };
    element.addEventListener('click', pressed);
    return () => element.removeEventListener('click', pressed);
  });
}

function useWidth(box: { readonly current: HTMLElement | null }): number {
  const [width, setWidth] = useState(USUAL_WIDTH);
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return undefined;
    const measure = () => {
      if (element.clientWidth > 0) setWidth(element.clientWidth);
    };
    measure();
    if (typeof ResizeObserver === 'undefined') return undefined;
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [box]);
  return width;
}
