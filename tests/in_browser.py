"""What the browser tests share: a server that can be killed, a worker, waiting for offline use."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path

from playwright.sync_api import Page

ROOT = Path(__file__).resolve().parents[1]
DIST = ROOT / "dist"
_SERVE = (
    "import sys; sys.path.insert(0, sys.argv[1])\n"
    "from builder import server, places\n"
    "made = server.make(places.DIST, 0, '127.0.0.1')\n"
    "print(made.server_port, flush=True)\n"
    "made.serve_forever()\n"
)


def built(name: str, site: Iterable[str] | None = None) -> str:
    """Where in the site lies what is built under this name: the file's own holds the hash of its content."""
    files = site or [file.relative_to(DIST).as_posix() for file in DIST.rglob("*") if file.is_file()]
    stem, _, ending = name.rpartition(".")
    found = [
        each for each in files if re.fullmatch(rf"(.*/)?{re.escape(stem)}-[0-9a-f]{{12}}\.{ending}", each)
    ]
    assert len(found) == 1, f"not one file of the site is {name}: {found}"
    return found[0]


class Served:
    """A server for dist/ in a process of its own, so that killing it is what a dead server is."""

    def __init__(self) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-c", _SERVE, str(ROOT)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            text=True,
        )
        assert self._process.stdout is not None
        self.port = int(self._process.stdout.readline())
        self.address = f"http://localhost:{self.port}/"

    def kill(self) -> None:
        """End the server at once and wait until it is gone."""
        self._process.kill()
        self._process.wait()
        if self._process.stdout is not None:
            self._process.stdout.close()


# A worker of the test's own, beside the page's: what the built runtime answers, without the page in between.
START_WORKER = """async () => {
  const main = await (await fetch(document.querySelector('script[type=module]').src)).text();
  const program = main.match(/app\\/worker-[0-9a-f]+\\.js/)[0];
  return new Promise((resolve, reject) => {
  const worker = new Worker(program, { type: 'module' });
  const waiting = new Map();
  let next = 1;
  self.askCore = (request) => new Promise((answered, refused) => {
    const id = next++;
    const late = new Error('no answer within a minute: ' + request.slice(0, 500));
    const limit = setTimeout(() => refused(late), 60000);
    const settle = (act) => (told) => { clearTimeout(limit); waiting.delete(id); act(told); };
    waiting.set(id, { answered: settle(answered), refused: settle(refused) });
    worker.postMessage({ kind: 'work', id, request });
  });
  self.told = [];
  worker.onerror = (event) => reject(new Error(event.message));
  worker.onmessage = ({ data }) => {
    if (data.kind === 'answer') return waiting.get(data.id).answered(data.response);
    self.told.push(data);
    if (data.kind === 'ready') resolve();
    if (data.kind === 'failed') {
      reject(new Error(data.reason));
      for (const one of [...waiting.values()]) one.refused(new Error(data.reason));
    }
  };
  });
}"""


def wait_until_stored(page: Page) -> None:
    """Wait until the service worker says that every file is on the device."""
    stored = page.evaluate(
        """async () => {
          const pause = (time) => new Promise((resolve) => setTimeout(resolve, time));
          let last = 'no service worker came';
          for (let tries = 0; tries < 300; tries++) {
            const { active } = (await navigator.serviceWorker.getRegistration()) ?? {};
            if (active) {
              last = 'the service worker told nothing';
              const { port1, port2 } = new MessageChannel();
              const told = new Promise((resolve) => { port1.onmessage = (event) => resolve(event.data); });
              active.postMessage({ type: 'HOW_STORED' }, [port2]);
              // Who is put away in this moment never answers.
              const state = await Promise.race([told, pause(2000)]);
              if (state) {
                last = JSON.stringify(state);
                if (state.stored) return '';
              }
            }
            await pause(100);
          }
          return last;
        }"""
    )
    assert stored == "", f"not every file was stored: {stored}"
