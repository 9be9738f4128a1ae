import { fullAddress } from "../link/address";
import { shelf } from "./shelf";

/** The name under which just this job is kept; empty where it is not. */
export function keptName(): string {
  const now = fullAddress().replace(/^[^#]*#/, "");
  return shelf.value.records.find(({ hash }) => hash === now)?.name ?? "";
}
