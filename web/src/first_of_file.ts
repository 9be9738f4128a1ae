/** Runs before anything else of the page that is one file: says so where the rest of it is not there or does not run. */
{
  const say = (): void => {
    const waiting = document.querySelector("#app > .waiting");
    if (waiting)
      waiting.textContent =
        "Conewright could not start: this file is not whole, or this browser does not run what is in it. Copy the file " +
        "again, or open it in another browser; what you have kept stays as it is.";
  };
  addEventListener("error", say, true);
  // What stands last in the file is not there where the file was cut short.
  addEventListener("DOMContentLoaded", () => (document.getElementById("end-of-file") ? setTimeout(say, 30_000) : say()));
}

export {};
