/** The user's settings: nothing that opens, prompts or moves by itself. The extension has its default settings. */
export const THEMES = {
  light: 'Default Light Modern',
  dark: 'Default Dark Modern',
  contrast: 'Default High Contrast',
} as const;

export type Theme = keyof typeof THEMES;

export function settings(theme: Theme): string {
  return JSON.stringify({
    'workbench.colorTheme': THEMES[theme],
    'security.workspace.trust.enabled': false,
    'workbench.startupEditor': 'none',
    'workbench.tips.enabled': false,
    'workbench.secondarySideBar.defaultVisibility': 'hidden',
    'workbench.enableExperiments': false,
    'extensions.ignoreRecommendations': true,
    'chat.commandCenter.enabled': false,
    'chat.disableAIFeatures': true,
    'files.autoSave': 'off',
    'git.openRepositoryInParentFolders': 'never',
  });
}
