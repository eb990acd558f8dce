// Templates in plain JavaScript: htm reads them, preact draws them.
import { h } from "preact";
import htm from "htm";

export const html = htm.bind(h);
