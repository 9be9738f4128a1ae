/** Letters and pictures set on a canvas one under another, as on a strip of paper. */

const WIDE = 360;
const MARGIN = 14;
const SHARP = 3;
/** Some phones draw no canvas of more dots than this. */
const MOST_DOTS = 14e6;
const FONT = 'system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", sans-serif';

type Mark = (ctx: CanvasRenderingContext2D) => void;

export interface Letters {
  readonly size: number;
  readonly bold?: boolean;
  readonly indent?: number;
  /** Room above. */
  readonly above?: number;
}

/** Collects what is to be drawn, and where, before the canvas can know how high it must be. */
export class Strip {
  private readonly marks: Mark[] = [];
  private readonly rule = document.createElement("canvas").getContext("2d");
  private y = MARGIN;

  /** A text on as many lines as it needs. */
  text(text: string, { size, bold = false, indent = 0, above = 0 }: Letters): void {
    if (!this.rule || !text.trim()) return;
    const font = `${bold ? "700 " : ""}${size}px ${FONT}`;
    this.rule.font = font;
    const room = WIDE - 2 * MARGIN - indent;
    this.y += above;
    for (const line of broken(text, room, (part) => this.rule?.measureText(part).width ?? 0)) {
      const at = (this.y += size * 1.25) - size * 0.25;
      this.marks.push((ctx) => {
        ctx.font = font;
        ctx.fillText(line, MARGIN + indent, at);
      });
    }
  }

  /** A square to tick beside the text that comes next. */
  box(size: number, above: number): void {
    const top = this.y + above + size * 0.25;
    this.marks.push((ctx) => ctx.strokeRect(MARGIN + 0.5, top, size * 0.85, size * 0.85));
  }

  line(): void {
    const at = (this.y += 8);
    this.marks.push((ctx) => ctx.fillRect(MARGIN, at, WIDE - 2 * MARGIN, 1.5));
    this.y += 2;
  }

  /** A drawing of the core, as wide as the strip. */
  async picture(text: string): Promise<void> {
    const tall = Number(/viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(text)?.[2]);
    const wide = Number(/viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(text)?.[1]);
    if (!tall || !wide) return;
    const [across, down] = [WIDE - 2 * MARGIN, ((WIDE - 2 * MARGIN) / wide) * tall];
    const image = new Image(across * SHARP, down * SHARP);
    image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(onPaper(text, across * SHARP, down * SHARP))}`;
    await image.decode();
    const at = this.y + 8;
    this.y = at + down;
    this.marks.push((ctx) => ctx.drawImage(image, MARGIN, at, across, down));
  }

  /** All of it as a PNG; null where this browser makes none. */
  finished(): Promise<Blob | null> {
    const tall = this.y + MARGIN;
    const sharp = Math.min(SHARP, Math.sqrt(MOST_DOTS / (WIDE * tall)));
    const canvas = document.createElement("canvas");
    canvas.width = Math.floor(WIDE * sharp);
    canvas.height = Math.floor(tall * sharp);
    const ctx = canvas.getContext("2d");
    if (!ctx) return Promise.resolve(null);
    ctx.fillStyle = "#fff";
    ctx.fillRect(0, 0, canvas.width, canvas.height);
    ctx.scale(sharp, sharp);
    ctx.fillStyle = ctx.strokeStyle = "#000";
    for (const mark of this.marks) mark(ctx);
    return new Promise((done) => canvas.toBlob(done, "image/png"));
  }
}

/** A picture by itself has no page to take its colours from: those of daylight, on white. */
const INKS: Readonly<Record<string, string>> = { ink: "#000", paper: "#fff", soft: "#45474a", mark: "#0f3d82", tint: "#e9ebf0" };

function onPaper(text: string, wide: number, tall: number): string {
  return text.replace(/var\(--([\w-]+),\s*([^)]+)\)/g, (_, name: string, fallback: string) => INKS[name] ?? fallback).replace('width="100%"', `width="${wide}" height="${tall}"`);
}

/** The text in lines that are at most `room` wide; a word that is wider stands by itself. */
export function broken(text: string, room: number, wide: (part: string) => number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const longer = line ? `${line} ${word}` : word;
    if (line && wide(longer) > room) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line ? [...lines, line] : lines;
}
