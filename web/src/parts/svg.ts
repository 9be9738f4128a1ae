import { inSign } from "../view/sign";

/** Text of an SVG, made harmless and fit to stand on the page more than once. */

const BANNED = new Set(["script", "foreignobject", "iframe", "object", "embed", "style", "image", "a"]);

let pictures = 0;

function clean(element: Element): void {
  for (const child of [...element.children]) {
    if (BANNED.has(child.localName.toLowerCase())) child.remove();
    else clean(child);
  }
  for (const { name, value } of [...element.attributes]) {
    const outside = /^(xlink:)?href$/i.test(name) && !value.startsWith("#");
    if (/^on/i.test(name) || outside || /url\(\s*["']?(?!#)/i.test(value)) element.removeAttribute(name);
  }
}

/** Two copies of one drawing must not share ids, or a folded one takes the other's markers away. */
function separateIds(root: Element): void {
  const prefix = `p${++pictures}-`;
  for (const element of [root, ...root.querySelectorAll("*")]) {
    for (const { name, value } of [...element.attributes]) {
      if (name === "id") element.setAttribute(name, prefix + value);
      else if (/^(xlink:)?href$/i.test(name)) element.setAttribute(name, value.replace(/^#/, `#${prefix}`));
      else if (/^aria-(labelledby|describedby)$/.test(name)) {
        element.setAttribute(name, value.replace(/\S+/g, (id) => prefix + id));
      } else if (value.includes("url(")) {
        element.setAttribute(name, value.replace(/url\((["']?)#/g, `url($1#${prefix}`));
      }
    }
  }
}

/** The picture as an element of this page, or null when the text is no SVG. */
export function pictureFrom(text: string): SVGElement | null {
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
  const root = parsed.documentElement;
  if (root.localName !== "svg" || parsed.querySelector("parsererror")) return null;
  clean(root);
  separateIds(root);
  for (const text of root.querySelectorAll("text, title, desc, tspan")) {
    if (text.children.length === 0 && text.textContent) text.textContent = inSign(text.textContent);
  }
  // How high it is in its own units, so that a look may give it the height at which its letters can be read.
  const [, , , tall] = (root.getAttribute("viewBox") ?? "").split(/[\s,]+/);
  if (tall) (root as unknown as SVGElement).style.setProperty("--tall", tall);
  root.setAttribute("role", "img");
  root.setAttribute("focusable", "false");
  return document.adoptNode(root) as unknown as SVGElement;
}
