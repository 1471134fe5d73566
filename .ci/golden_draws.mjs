// Draws every golden file with a WebAssembly build of the core and compares each row with tests/golden.
//
//     node .ci/golden_draws.mjs golden_draws.wasm
//
// Before that it must notice an altered seed, an altered row, a missing row and a prescription that is refused.

import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

if (process.argv.length !== 3) {
    console.error("Usage: node .ci/golden_draws.mjs FILE.wasm");
    process.exit(2);
}

const folder = fileURLToPath(new URL("../tests/golden/", import.meta.url));
const seed = readFileSync(folder + "seed.txt", "utf8").trimEnd();
const bytes = readFileSync(process.argv[2]);
const module = new WebAssembly.Module(bytes);

function fail(fact) {
    console.error(`Error: ${fact}`);
    process.exit(1);
}

// The core reaches nothing outside: no clock, no random numbers, no memory but its own.
const imports = WebAssembly.Module.imports(module);
if (imports.length > 0) {
    fail(`the WebAssembly file imports ${imports.map(({ module, name }) => `${module}.${name}`).join(", ")}; it must import nothing.`);
}

const core = new WebAssembly.Instance(module).exports;

function draw(name, seed, prescription) {
    const request = new TextEncoder().encode(`${name}\n${seed}\n${prescription}`);
    const address = core.room(request.length);
    new Uint8Array(core.memory.buffer, address, request.length).set(request);
    const length = core.draw();
    // Growing the memory replaces its buffer, so the buffer is asked for again.
    return new TextDecoder("utf-8", { fatal: true }).decode(new Uint8Array(core.memory.buffer, core.place(), length));
}

// The rows of a golden file, without the brackets around them and the commas between them.
function rows(text) {
    const lines = text.split("\n");
    if (lines.shift() !== "[" || lines.pop() !== "" || lines.pop() !== "]") return [text];
    return lines.map((line) => line.replace(/,$/, ""));
}

function compared(drawn, golden) {
    const [have, want] = [rows(drawn), rows(golden)];
    const count = Math.max(have.length, want.length);
    const different = [];
    for (let row = 0; row < count; row += 1) {
        if (have[row] !== want[row]) different.push({ row: row + 1, drawn: have[row], golden: want[row] });
    }
    // Equal rows in an unequal frame would still be unequal files.
    if (different.length === 0 && drawn !== golden) different.push({ row: 0, drawn: "other bytes", golden: "around the rows" });
    return { count, different };
}

const names = readdirSync(folder)
    .filter((file) => file.endsWith(".toml"))
    .map((file) => file.slice(0, -".toml".length))
    .sort();
const cases = names.map((name) => ({
    name,
    prescription: readFileSync(`${folder}${name}.toml`, "utf8"),
    golden: readFileSync(`${folder}${name}.json`, "utf8"),
}));
if (cases.length === 0) fail("tests/golden has no prescription.");

// A comparison that cannot fail would show nothing.
const otherSeed = (seed[0] === "0" ? "1" : "0") + seed.slice(1);
for (const { name, prescription, golden } of cases) {
    const drawn = draw(name, seed, prescription);
    const digit = golden.search(/\d/);
    const altered = golden.slice(0, digit) + ((Number(golden[digit]) + 1) % 10) + golden.slice(digit + 1);
    const shortened = golden.replace(/,\n[^\n]*\n\]\n$/, "\n]\n");
    const faults = {
        "another seed": [draw(name, otherSeed, prescription), golden],
        "an altered row": [drawn, altered],
        "a missing row": [drawn, shortened],
        "a refused prescription": [draw(name, seed, `${prescription}\nno_such_field = 1\n`), golden],
    };
    for (const [fault, [left, right]] of Object.entries(faults)) {
        if (compared(left, right).different.length === 0) fail(`${fault} of ${name} was not noticed.`);
    }
    if (!draw(name, seed, `${prescription}\nno_such_field = 1\n`).startsWith("Error:")) {
        fail(`${name} with an unknown field was not refused.`);
    }
}
console.log(`Noticed in each of ${cases.length} files: another seed, an altered row, a missing row, a refused prescription.`);

let total = 0;
let wrong = 0;
for (const { name, prescription, golden } of cases) {
    const { count, different } = compared(draw(name, seed, prescription), golden);
    total += count;
    wrong += different.length;
    for (const { row, drawn, golden } of different.slice(0, 5)) {
        console.log(`${name}.json, row ${row}: drawn ${drawn ?? "nothing"}, golden ${golden ?? "nothing"}`);
    }
}
console.log(`WebAssembly: ${bytes.length} bytes, ${gzipSync(bytes, { level: 9 }).length} bytes as gzip, imports nothing.`);
console.log(`${total} rows of ${cases.length} golden files compared: ${wrong} different.`);
process.exit(wrong === 0 ? 0 : 1);
