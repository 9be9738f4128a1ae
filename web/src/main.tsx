import { render } from "preact";
import { App } from "./frame/App";
import { startAnswering, startEngine } from "./job/answer";
import { openFirstJob } from "./begin/first";
import { startSwitching } from "./job/units";
import { openShelf } from "./kept/shelf";
import { followAddress } from "./link/address";
import { startLook } from "./look/look";
import { startOffline } from "./offline/offline";

async function start(): Promise<void> {
  startLook();
  startEngine();
  await openFirstJob();
  startAnswering();
  startSwitching();
  followAddress();
  const place = document.getElementById("app");
  if (place) {
    place.replaceChildren();
    render(<App />, place);
  }
  void openShelf();
  startOffline();
}

void start();
