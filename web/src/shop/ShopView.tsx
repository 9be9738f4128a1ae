import { NextPart } from "../begin/NextPart";
import type { Field } from "../contract";
import { FieldView } from "../fields/FieldView";
import { Fields } from "../fields/Fields";
import { answer } from "../job/answer";
import { isOfShop } from "../job/belongs";
import { invented } from "../job/job";
import { changeHistory, shop } from "../job/shop";
import { Segments } from "../parts/Segments";
import { offerUndo } from "../undo/undo";
import { shopPart } from "../view/shop_part";
import { words } from "../words";
import { OwnParts } from "./OwnParts";

/** The shop: what stays from job to job. */
export function ShopView() {
  const sheet = answer.value?.sheet;
  if (!sheet) return <p class="waiting">{words.status.waiting}</p>;
  const fields = sheet.stages.flatMap(({ fields = [] }) => fields.filter(isOfShop));
  const drawer = fields.find(({ kind }) => kind === "pieces");
  const others = fields.filter(({ kind }) => kind !== "pieces");
  return (
    <section class="shop" aria-label={words.shop.heading}>
      <Segments
        name="shop-part"
        legend={words.shop.heading}
        legendHidden
        choices={[
          { value: "drawer", label: words.shop.drawer },
          { value: "machine", label: words.shop.machine },
          { value: "learned", label: words.shop.learned },
        ]}
        chosen={shopPart.value}
        onChoose={(value) => (shopPart.value = value)}
      />
      {invented.value && <p class="help">{words.shop.invented}</p>}
      <OwnParts />
      {shopPart.value === "drawer" && drawer && <FieldView field={drawer} />}
      {shopPart.value === "machine" && <Machine fields={others} />}
      {shopPart.value === "learned" && <Learned />}
    </section>
  );
}

function Machine({ fields }: { readonly fields: readonly Field[] }) {
  if (fields.length === 0) return <p class="help">{words.shop.none}</p>;
  return <Fields stage="shop" fields={fields} />;
}

/** What proving has taught: how many cuts are remembered, and the way to forget them. */
function Learned() {
  const { history } = shop.value;
  const forget = () => {
    changeHistory([]);
    offerUndo(words.shop.forgotten(history.length), () => changeHistory(history));
  };
  return (
    <div>
      <p>{words.shop.cuts(history.length)}</p>
      <NextPart />
      {history.length > 0 && <button type="button" onClick={forget}>{words.shop.forget}</button>}
    </div>
  );
}
