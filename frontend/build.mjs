// Bundles the pages of the workbench, and sets the licences of all that went into them beside them.
import { copyFileSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const out = process.argv[2] ?? join(here, "../src/hookwright/desk/workbench/static");

rmSync(out, { recursive: true, force: true });
const done = await build({
  absWorkingDir: here,
  entryPoints: ["scheme", "folder", "write", "keep", "history", "measure"].map((name) => `src/${name}.js`).concat("src/site.css"),
  bundle: true,
  format: "esm",
  splitting: true,
  minify: true,
  legalComments: "eof",
  target: "es2022",
  loader: { ".woff2": "file" },
  assetNames: "fonts/[name]",
  chunkNames: "parts/[name]-[hash]",
  outdir: out,
  metafile: true,
  logLevel: "warning",
});

copyFileSync(join(here, "src/mark.svg"), join(out, "mark.svg"));

const packages = new Set();
for (const file of Object.keys(done.metafile.inputs)) {
  const found = file.match(/^node_modules\/((?:@[^/]+\/)?[^/]+)/);
  if (found) packages.add(found[1]);
}
const notices = [...packages].sort().map((name) => {
  const folder = join(here, "node_modules", name);
  const about = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const text = readdirSync(folder).find((one) => /^licen[cs]e(\.\w+)?$/i.test(one));
  if (!text && !existsSync(join(here, "licences", name.replace("/", "-") + ".txt"))) throw new Error(`no licence text of ${name}`);
  const words = readFileSync(text ? join(folder, text) : join(here, "licences", name.replace("/", "-") + ".txt"), "utf8").trim();
  return `${name} ${about.version} (${about.license})\n\n${words}\n`;
});
writeFileSync(join(out, "third-party.txt"), "What the pages of the workbench are built with, and under which licences.\nThe fonts: Source Sans 3 under the SIL Open Font License 1.1 (OFL.txt beside them in the package).\n\n" + notices.join("\n" + "-".repeat(80) + "\n\n"));
