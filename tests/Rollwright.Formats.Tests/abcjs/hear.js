// Reads a JSON list of ABC texts on standard input with abcjs and answers for the first tune of each: its warnings, and its
// notes as heard (start in whole notes, MIDI key). Test-only: an outside reader of what we write.
const abcjs = require("abcjs");

const texts = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
const answer = texts.map((text) => {
  const tune = abcjs.parseOnly(text)[0];
  const tracks = tune.setUpAudio({ chordsOff: true }).tracks;
  const notes = tracks.flat().filter((event) => event.cmd === "note");
  return { warnings: tune.warnings ?? [], notes: notes.map((note) => [note.start, note.pitch]) };
});
process.stdout.write(JSON.stringify(answer));
