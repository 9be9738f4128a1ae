import type { Field } from "../contract";
import { write } from "../job/job";
import { PiecesView } from "../pieces/PiecesView";
import { ChoiceInput } from "./ChoiceInput";
import { FaultView } from "./FaultView";
import { SeveralInput } from "./SeveralInput";
import { TextInput } from "./TextInput";

/** The ids of the words beneath a field, for whoever cannot see that they are beneath it. */
function describing(field: Field, id: string): string | undefined {
  const parts = [field.wrong && `${id}-wrong`, field.read && `${id}-read`, field.help && `${id}-help`];
  return parts.filter(Boolean).join(" ") || undefined;
}

/** A choice whose words are longer than this takes the whole width. */
const LONG = 30;

function isBroad({ kind, choices = [] }: Field): boolean {
  return kind === "several" || choices.some(({ label }) => label.length > LONG);
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
  const id = `field-${field.id}`;
  const props = { field, id, describedBy: describing(field, id) };
  return (
    <div class={`field${field.wrong ? " wrong" : ""}${isBroad(field) ? " broad" : ""}`} data-field={field.id}>
      <Input {...props} />
      {field.wrong && <FaultView fault={field.wrong} id={`${id}-wrong`} onUse={(text) => write(field.id, text)} />}
      {field.read && (
        <p class="read" id={`${id}-read`}>
          {field.read}
        </p>
      )}
      {field.help && (
        <p class="help" id={`${id}-help`}>
          {field.help}
        </p>
      )}
    </div>
  );
}
