import { answer } from "../job/answer";
import { job } from "../job/job";
import { changeHistory, shop } from "../job/shop";
import { offerUndo } from "../undo/undo";
import { words } from "../words";

/** What this cut showed, put with what the lathe has taught: once for what was seen, whenever the person says so. */
export function LearnCut() {
  const latest = answer.value;
  const record = latest?.sheet.record;
  if (!record || latest.unchecked || latest.of !== job.value || job.value.invented || (job.value.observations ?? []).length === 0) return null;
  const known = shop.value.history.some((one) => JSON.stringify(one) === JSON.stringify(record));
  if (known) return <p class="said">{words.shop.learnt}</p>;
  const learn = () => {
    const before = shop.value.history;
    changeHistory([...before, record]);
    offerUndo(words.shop.learnt, () => changeHistory(before));
  };
  return <button type="button" class="wide" onClick={learn}>{words.shop.learn}</button>;
}
