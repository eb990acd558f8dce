import { useEffect, useRef } from "preact/hooks";
import { told } from "./dates.js";
import { html } from "./html.js";
import { look } from "./store.js";

// A change that may be a slip is asked about, and made if it is meant.
export const Doubts = ({ ui }) => {
  const box = useRef();
  useEffect(() => {
    if (ui.doubts && box.current && !box.current.open) box.current.showModal();
  }, [ui.doubts]);
  if (!ui.doubts) return null;
  return html`<dialog ref=${box} class="doubts" aria-labelledby="doubts-title" onClose=${() => look({ doubts: null })}>
    <h2 id="doubts-title">Is that meant?</h2>
    <ul>${ui.doubts.words.map((words) => html`<li key=${words}>${told(words)}</li>`)}</ul>
    <div class="row">
      <button type="button" class="main" id="sure" onClick=${() => ui.doubts.again()}>Yes, do it</button>
      <button type="button" onClick=${() => look({ doubts: null })}>No, leave it</button>
    </div>
  </dialog>`;
};
