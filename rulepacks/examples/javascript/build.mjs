// Makes ring-gaps.js a component that imports nothing: node build.mjs
import { readFile, writeFile } from "node:fs/promises";
import { componentize } from "@bytecodealliance/componentize-js";

const manifest = JSON.stringify(JSON.parse(await readFile("manifest.json", "utf8")));
const source = await readFile("ring-gaps.js", "utf8");
const { component } = await componentize(`const MANIFEST = ${JSON.stringify(manifest)};\n${source}`, {
  witPath: "rules-1.0.wit",
  worldName: "rule-pack",
  // a pack is given nothing: whatever is left on here becomes an import, and thou refuses it
  disableFeatures: ["stdio", "random", "clocks", "http", "fetch-event"],
});
await writeFile("ring-gaps.component.wasm", component);
