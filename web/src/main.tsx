import { render } from "preact";
import { App } from "./frame/App";
import { startAnswering, startEngine } from "./job/answer";
import { openFirstJob } from "./begin/first";
import { followSheets, showLastSheet } from "./job/first_sheet";
import { followChanges } from "./job/past";
import { followShop, openShop } from "./job/shop";
import { startSwitching } from "./job/units";
import { followKeys } from "./keypad/press";
import { keptName } from "./kept/in_hand";
import { followShelf } from "./kept/shelf";
import { followMarks } from "./job/marks";
import { followPrinting } from "./paper/print";
import { followAddress } from "./link/address";
import { startLook } from "./look/look";
import { followInstalling } from "./offline/installing";
import { startOffline } from "./offline/offline";
import { followEdges } from "./view/edges";
import { followFocus } from "./view/focus";
import { followBack } from "./view/place";

async function start(): Promise<void> {
  startLook();
  startEngine();
  await openShop();
  await openFirstJob();
  startAnswering();
  await showLastSheet();
  startSwitching();
  followAddress();
  followBack();
  followShop();
  followChanges();
  followFocus();
  followKeys();
  followMarks();
  followPrinting(keptName);
  followInstalling();
  const place = document.getElementById("app");
  if (place) {
    place.replaceChildren();
    render(<App />, place);
    followEdges();
  }
  followShelf();
  followSheets();
  startOffline();
}

void start();
