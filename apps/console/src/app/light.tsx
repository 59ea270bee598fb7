import { useState } from 'react';
import { Choice } from '../parts/choice.js';
import { remember, remembered } from '../parts/remembered.js';

const LIGHTS = ['system', 'light', 'dark'] as const;
type Light = (typeof LIGHTS)[number];

/** Sets the light this device was left in, before anything is drawn. */
export function applyLight(light: Light = remembered('light', LIGHTS, 'system')): Light {
  if (light === 'system') delete document.documentElement.dataset.light;
  else document.documentElement.dataset.light = light;
  return light;
}

/** Light, dark, or as the device has it. */
export function LightSwitch() {
  const [light, setLight] = useState<Light>(() => applyLight());
  return (
    <Choice
      legend="Light"
      options={[
        { value: 'system', word: 'as device' },
        { value: 'light', word: 'light' },
        { value: 'dark', word: 'dark' },
      ]}
      chosen={light}
      onChoose={(next) => {
        remember('light', next);
        setLight(applyLight(next));
      }}
    />
  );
}
