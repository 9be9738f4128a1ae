import { useComputed } from "@preact/signals";
import type { Field } from "../contract";
import { write, written } from "../job/job";
import { goToNext, ownKeys, QUANTITIES } from "../keypad/press";
import { typedIn } from "../view/focus";

interface Props {
  readonly field: Field;
  readonly id: string;
  readonly describedBy: string | undefined;
}

/** A quantity or a text. The text shown is the person's own, never the core's, so that typing is not disturbed. */
export function TextInput({ field, id, describedBy }: Props) {
  const text = useComputed(() => written(field.id)).value;
  const quantity = QUANTITIES.includes(field.kind);
  return (
    <>
      <label for={id}>{field.label}</label>
      <div class="input-row">
        <input
          ref={noCorrecting}
          id={id}
          type="text"
          inputMode={quantity && ownKeys.value ? "none" : "text"}
          data-kind={quantity ? field.kind : undefined}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          enterkeyhint="next"
          value={text}
          placeholder={withoutUnit(field)}
          aria-describedby={describedBy}
          aria-invalid={field.wrong ? "true" : undefined}
          onInput={(event) => {
            typedIn(field.id);
            write(field.id, event.currentTarget.value);
          }}
          onKeyDown={(event) => event.key === "Enter" && goToNext(event.currentTarget)}
        />
        {field.unit && <span class="unit">{field.unit}</span>}
      </div>
      {(field.choices ?? []).length > 0 && (
        <div class="chips">
          {field.choices?.map(({ value, label }) => (
            <button key={value} type="button" aria-pressed={text === value} onClick={() => write(field.id, value)}>
              {label}
            </button>
          ))}
        </div>
      )}
    </>
  );
}

/** The unit stands behind the box already, and a narrow box has no room for it twice. */
function withoutUnit({ default: usual = "", unit = "" }: Field): string {
  return unit && usual.endsWith(` ${unit}`) ? usual.slice(0, -unit.length - 1) : usual;
}

/** As an attribute: the property of the same name is a truth value in some browsers and unknown in others. */
function noCorrecting(input: HTMLInputElement | null): void {
  input?.setAttribute("autocorrect", "off");
}
