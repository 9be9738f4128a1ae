import { useComputed } from "@preact/signals";
import type { Field } from "../contract";
import { useMemo, useRef } from "preact/hooks";
import { write } from "../job/job";
import { typing } from "../view/focus";
import { PiecesView } from "../pieces/PiecesView";
import { ChoiceInput, sideBySide } from "./ChoiceInput";
import { FaultView } from "./FaultView";
import { RowsView } from "./RowsView";
import { SeveralInput } from "./SeveralInput";
import { TextInput } from "./TextInput";

/** The ids of the words beneath a field, for whoever cannot see that they are beneath it. */
function describing(field: Field, id: string): string | undefined {
  const parts = [field.wrong && `${id}-wrong`, field.read && `${id}-read`, field.help && `${id}-help`];
  return parts.filter(Boolean).join(" ") || undefined;
}

/** A choice whose words are longer than this takes the whole width. */
const LONG = 30;
/** Choices side by side with more letters than this together want a row of their own. */
const NARROW = 14;

function isBroad({ kind, choices = [] }: Field): boolean {
  const letters = choices.reduce((sum, { label }) => sum + label.length, 0);
  if (kind === "choice" && sideBySide(choices)) return letters > NARROW || choices.length > 3;
  return kind === "several" || (kind === "text" && choices.length > 0) || choices.some(({ label }) => label.length > LONG);
}

interface Props {
  readonly field: Field;
  readonly id: string;
  readonly describedBy: string | undefined;
}

/** A kind that this page does not know is asked for as text. */
function Input(props: Props) {
  if (props.field.kind === "choice") return <ChoiceInput {...props} />;
  if (props.field.kind === "several") return <SeveralInput {...props} />;
  return <TextInput {...props} />;
}

/** Any field, by its kind. */
export function FieldView({ field }: { readonly field: Field }) {
  if (field.kind === "pieces") return <PiecesView field={field} ask={(part) => <FieldView key={part.id} field={part} />} />;
  if (field.kind === "rows") return <RowsView field={field} ask={(part) => <FieldView key={part.id} field={part} />} />;
  return <SteadyField field={field} />;
}

/** Drawn again only where the field is another one; what is typed in it is its own to follow. */
function SteadyField({ field }: { readonly field: Field }) {
  return useMemo(() => <OneField field={field} />, [field]);
}

/** A text without what writes the same number otherwise: ".5", "0.50" and "0.5" are one. */
function plain(text: string): string {
  const close = text.replace(/\s/g, "").toLowerCase();
  const whole = close.replace(/(^|[^\d.])\.(?=\d)/g, (_, before: string) => `${before}0.`);
  return whole.replace(/(\.\d*?)0+(?!\d)/g, "$1").replace(/\.(?!\d)/g, "");
}

/**
 * "read as 100 mm" beside "100" with mm behind it says nothing new. It is of the text that the core read: while more is
 * typed it stands as it is, or the page would jump at every key.
 */
function isNews(field: Field): boolean {
  const read = plain((field.read ?? "").replace(/^read as /, ""));
  const typed = plain(field.value ?? "");
  return read !== "" && read !== typed && read !== typed + plain(field.unit ?? "");
}

function OneField({ field: asked }: { readonly field: Field }) {
  const last = useRef<Field["wrong"]>(null);
  // While it is being typed, what was wrong before stands still; what is wrong now is said after a pause.
  const inHand = useComputed(() => typing.value === asked.id).value;
  const wrong = asked.wrong && inHand ? last.current : asked.wrong;
  last.current = wrong;
  const field: Field = { ...asked, wrong: wrong ?? null, read: isNews(asked) ? (asked.read ?? "") : "" };
  const id = `field-${field.id}`;
  const props = { field, id, describedBy: describing(field, id) };
  return (
    // A form of its own: a browser looks through all fields of a form at every key, and those outside any are one.
    <form class={`field${field.wrong ? " wrong" : ""}${isBroad(field) ? " broad" : ""}`} data-field={field.id} onSubmit={stay}>
      <Input {...props} />
      {field.wrong && <FaultView fault={field.wrong} id={`${id}-wrong`} onUse={(text) => write(field.id, text)} />}
      {field.read && (
        <p key="read" class="read" id={`${id}-read`}>
          {field.read}
        </p>
      )}
      {field.help && (
        <p key="help" class="unseen" id={`${id}-help`}>
          {field.help}
        </p>
      )}
    </form>
  );
}

/** There is nowhere to send it. */
function stay(event: Event): void {
  event.preventDefault();
}
