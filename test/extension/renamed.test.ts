/** The name that a renamed workbook needs. */
import { expect, test } from 'vitest';
import { workbookName } from '../../src/extension/workbook-name.ts';
