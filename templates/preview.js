{# Only in a preview: asks what is new, shows errors over the page, and loads the page again where it
is another. The answer is a script itself, since a page's policy lets none fetch. #}
"use strict";
{
  const box = document.getElementById("preview");
  let { page, mark, faults } = document.currentScript.dataset;

  const ask = () => {
    const script = document.createElement("script");
    script.src = `/.preview/wait.js?${new URLSearchParams({ page, mark, faults })}`;
    const then = (late) => () => {
      script.remove();
      setTimeout(seen, late);
    };
    script.onload = then(0);
    script.onerror = then(1000); // the preview has ended, and may begin again
    document.head.append(script);
  };
  const seen = () => {
    if (document.hidden) document.addEventListener("visibilitychange", seen, { once: true });
    else ask();
  };
  window.previewed = (now) => {
    const isOther = now.mark !== mark && (now.mark || !now.faults); // else it lasts until it is mended
    if (isOther) location.reload();
    if (now.faults !== faults) box.innerHTML = now.box;
    faults = now.faults;
  };
  addEventListener("load", () => setTimeout(seen));
}
