/** How fine a picture of a sheet is: apart from the engine that draws it, so that a page can ask before that is loaded. */

/** Pixels in a metre of the paper. Below this a sheet is a speck. */
export const LEAST_PER_METRE = 10;
/** 6 a mm, about 150 dots an inch: lines and the smallest type are clear on a screen. */
export const USUAL_PER_METRE = 6000;
