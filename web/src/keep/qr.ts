import { encode } from "uqr";

/** The code for another phone's camera; a program of its own, fetched when one is wanted, that leaves itself here. */
Object.assign(self, { codeMaker: encode });
