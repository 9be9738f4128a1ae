/** What most begin with: entries as the core names them, each one tap away. Any other taper is picked under Change. */
export interface Common {
  readonly label: string;
  readonly entries: Readonly<Record<string, string>>;
}

const morse = (size: string): Common => ({ label: `Morse ${size}`, entries: { "taper.series": "Morse", "taper.size": size } });
const taper = (series: string, size: string, label = `${series} ${size}`): Common => ({
  label,
  entries: { "taper.series": series, "taper.size": size },
});

export const TAPERS: readonly Common[] = [
  ...["0", "1", "2", "3", "4", "5"].map(morse),
  taper("Jacobs", "33"),
  taper("Jacobs", "6"),
  taper("B", "16"),
  taper("R8", "R8", "R8"),
  taper("7/24", "30"),
  taper("7/24", "40"),
];

export const UNKNOWN_SHANK: Readonly<Record<string, string>> = { "taper.series": "unknown", "taper.form": "external" };
export const UNKNOWN_SOCKET: Readonly<Record<string, string>> = { "taper.series": "unknown", "taper.form": "internal" };
export const OTHER: Readonly<Record<string, string>> = { "taper.series": "own" };

const bar = (size: string): Common => ({ label: size, entries: { "setting.way": "bar", "setting.bar_centres": size } });

export const BARS: readonly Common[] = ["100 mm", "200 mm", "3 in", "4 in", "5 in", "10 in"].map(bar);
