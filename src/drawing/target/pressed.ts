/** Makes a sign on the tape a button for mouse, keyboard and screen reader. */
export function pressed(label: string, isSelected: boolean, press: () => void) {
  return {
    role: 'button' as const,
    // In a picture names of attributes have their case.
    tabindex: 0,
    'aria-label': label.trim(),
    'aria-pressed': isSelected,
    class: 'mark',
    onClick: press,
    onKeyDown: (event: { key: string; preventDefault(): void }) => {
      if (event.key !== 'Enter' && event.key !== ' ') return;
      event.preventDefault();
      press();
    },
  };
}
