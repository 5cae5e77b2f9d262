/**
 * The usual cautions, once, for every place that shows them. Common practice; class names and eyewear after
 * IEC 60825-1 and its user guidance, from memory. `{wavelength}` stands for the laser's (`cautionsAt` fills it in).
 */
export const cautions = {
  fire: [
    'The beam is invisible; it burns eyes and skin at once, reflects off bare metal, and sets fire to what it marks. With covers open a class 1 machine is a class 4 laser.',
    'Rated eyewear ({wavelength}) for everyone in the room. Covers closed, or the beam enclosed, wherever possible. Lowest power and shortest pulse that mark. Hands out of the path. Extinguisher at hand and someone watching. Extraction on, cooling on.',
  ],
  tube: ['The tube runs at lethal voltage: mains off and capacitor discharged before its ends are touched.'],
  lens: ['Zinc selenide is toxic if it breaks: gloves, no dust, the ring no more than snug.'],
  defer: [
    'This does not replace the machine’s manual, the laser safety officer, local rules or a licensed technician.',
  ],
} as const satisfies Record<string, readonly string[]>;

/** The same for a screen of 24 lines of 48 columns, in ASCII: in the shortest words that leave nothing out. */
export const briefCautions = {
  fire: [
    'Invisible beam: burns eyes and skin at once, reflects off bare metal, sets fire. Covers open: class 4 laser. Eyewear ({wavelength}) for everyone. Covers closed or beam enclosed. Lowest power, shortest pulse. Hands out. Extinguisher, someone watching. Extraction, cooling on.',
  ],
  tube: ['Tube: lethal voltage. Mains off, capacitor discharged before its ends are touched.'],
  lens: ['Zinc selenide is toxic if it breaks: gloves, no dust, ring no more than snug.'],
  defer: ['Does not replace manual, laser safety officer, local rules or licensed technician.'],
} as const satisfies Record<keyof typeof cautions, readonly string[]>;

/** In place of those before a shot, once they were shown in a visit. */
export const FIRE_REMINDER = 'Eyewear, covers, extraction, cooling, watch.';
