export * from '../../../drawing/readingRows.ts';
