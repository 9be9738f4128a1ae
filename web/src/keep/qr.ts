/** The code for another phone's camera; a file of its own, fetched when one is wanted. */
export { encode } from "uqr";
