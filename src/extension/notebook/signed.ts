/** In the status bar of a cell: the time and the name that it is logged under. */
import {
  NotebookCellStatusBarAlignment,
  NotebookCellStatusBarItem,
  type NotebookCell,
  type NotebookCellStatusBarItemProvider,
} from 'vscode';

export const signed: NotebookCellStatusBarItemProvider = {
  provideCellStatusBarItems({ document }: NotebookCell) {
    const text = document.getText();
    const time = /^date:.*?\b(\d{1,2}:\d{2})\b/m.exec(text)?.[1];
    const name = /^by: *(["']?)([^\s#].*?)\1 *(?: #.*)?$/m.exec(text)?.[2];
    const words = [time, name].filter((word) => word !== undefined).join(' ');
    return words === '' ? [] : [new NotebookCellStatusBarItem(words, NotebookCellStatusBarAlignment.Left)];
  },
};
