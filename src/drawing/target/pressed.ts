/** What makes a sign on the tape a button: for the mouse, for the keys, and for those who do not see it. */
export function pressed(label: string, isSelected: boolean, press: () => void) {
  return {
    role: 'button' as const,
    tabIndex: 0,
    'aria-label': label,
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
