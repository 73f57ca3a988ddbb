// Draws breaks, given as MusicXML, with the notation library, and times it. Reading the MusicXML is not timed.
const V = VexFlow;
const Scale = 0.55; // the library's ten units a staff space become what our page has, near enough
const PageWidth = 595, Margin = 40;

const text = (element, name) => element.querySelector(name)?.textContent ?? null;
const types = { whole: 'w', half: 'h', quarter: 'q', eighth: '8', '16th': '16', '32nd': '32' };

function read(xml) {
  const score = new DOMParser().parseFromString(xml, 'text/xml');
  const fifths = Number(text(score, 'fifths') ?? 0);
  const bars = [...score.querySelectorAll('measure')].map(measure => {
    const bar = { notes: [], tab: [], chords: [], number: measure.getAttribute('number') };
    bar.repeatStart = !!measure.querySelector('repeat[direction=forward]');
    bar.repeatEnd = !!measure.querySelector('repeat[direction=backward]');
    // A short bar at the end of a repeat is the rest of a bar, not a pickup.
    bar.pickup = measure.getAttribute('implicit') === 'yes' && !bar.repeatEnd;
    const ending = measure.querySelector('ending[type=start]');
    bar.ending = ending ? ending.getAttribute('number') : null;
    const time = measure.querySelector('time');
    bar.time = time ? `${text(time, 'beats')}/${text(time, 'beat-type')}` : null;
    let at = 0;
    for (const child of measure.children) {
      if (child.tagName === 'backup') at -= Number(text(child, 'duration'));
      else if (child.tagName === 'harmony')
        bar.chords.push({ at, name: text(child, 'root-step') + ({ '1': '#', '-1': 'b' }[text(child, 'root-alter')] ?? '')
          + ({ minor: 'm', dominant: '7' }[text(child, 'kind')] ?? '') });
      else if (child.tagName === 'note') {
        const list = text(child, 'staff') === '2' ? bar.tab : bar.notes;
        if (child.querySelector('chord')) { add(list[list.length - 1], child); continue; }
        const note = { at, type: types[text(child, 'type')] ?? 'w', dots: child.querySelectorAll('dot').length, keys: [],
          positions: [], rest: !!child.querySelector('rest'), beam: text(child, 'beam'), plucks: [],
          slurs: [...child.querySelectorAll('slur, hammer-on, pull-off, slide')].map(s => ({ id: s.getAttribute('number'), type: s.getAttribute('type') })),
          tie: !!child.querySelector('tied[type=start]') };
        add(note, child);
        list.push(note);
        at += Number(text(child, 'duration'));
      }
    }
    return bar;
  });
  return { title: text(score, 'work-title'), key: majorKeys[fifths + 7], bars };
}
const majorKeys = ['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'];

function add(note, child) {
  const pitch = child.querySelector('pitch');
  if (pitch) {
    const alter = { '1': '#', '-1': 'b' }[text(pitch, 'alter')] ?? '';
    note.keys.push(`${text(pitch, 'step').toLowerCase()}${alter}/${Number(text(pitch, 'octave')) + 1}`);
  }
  const string = text(child, 'string');
  if (string) note.positions.push({ str: Number(string), fret: Number(text(child, 'fret')) });
  const pluck = text(child, 'pluck');
  if (pluck) note.plucks.push(pluck.toUpperCase());
}

function systemsOf(bars) {
  const systems = [];
  let full = 4;
  for (const bar of bars) {
    if (full >= 4 && !(systems.length && bar.ending && bar.ending !== '1') || bar.repeatStart && full > 0 || bar.pickup) {
      systems.push([]);
      full = 0;
    }
    systems[systems.length - 1].push(bar);
    if (!bar.pickup) full++;
  }
  return systems;
}

function draw(tune, into) {
  into.textContent = '';
  const renderer = new V.Renderer(into, V.Renderer.Backends.SVG);
  const systems = systemsOf(tune.bars);
  const lineHeight = 235;
  renderer.resize(PageWidth, (120 + systems.length * lineHeight) * Scale);
  const context = renderer.getContext();
  context.scale(Scale, Scale);
  context.setFont('Times', 30, 'bold');
  context.fillText(tune.title, PageWidth / Scale / 2 - 100, 60);
  let y = 90;
  systems.forEach((system, number) => {
    const whole = (PageWidth - 2 * Margin) / Scale;
    const front = number === 0 ? 130 : 90;
    const weight = bar => Math.max(2, bar.tab.length);
    const sum = system.reduce((all, bar) => all + weight(bar), 0);
    let x = Margin / Scale;
    const slurs = new Map();
    system.forEach((bar, i) => {
      const width = (whole - front) * weight(bar) / sum + (i === 0 ? front : 0);
      drawBar(context, tune, bar, x, y, width, i === 0, number === 0 && i === 0, slurs);
      x += width;
    });
    y += lineHeight;
  });
}

function drawBar(context, tune, bar, x, y, width, first, opening, slurs) {
  const staff = new V.Stave(x, y, width), tab = new V.TabStave(x, y + 100, width, { numLines: 5 });
  if (first) {
    staff.addClef('treble', 'default', '8vb').addKeySignature(tune.key);
    tab.addClef('tab');
    if (opening && bar.time) staff.addTimeSignature(bar.time);
  }
  for (const one of [staff, tab]) {
    if (bar.repeatStart) one.setBegBarType(V.BarlineType.REPEAT_BEGIN);
    if (bar.repeatEnd) one.setEndBarType(V.BarlineType.REPEAT_END);
  }
  if (bar.ending) staff.setVoltaType(V.VoltaType.BEGIN_END, bar.ending + '.', 0);
  // Both staves begin their notes at the same place.
  const start = Math.max(staff.getNoteStartX(), tab.getNoteStartX());
  staff.setNoteStartX(start); tab.setNoteStartX(start);
  staff.setContext(context).draw();
  tab.setContext(context).draw();
  if (first) new V.StaveConnector(staff, tab).setType('bracket').setContext(context).draw();

  const notes = bar.notes.map(note => {
    const drawn = new V.StaveNote({ keys: note.rest || !note.keys.length ? ['b/4'] : note.keys,
      duration: note.type + (note.rest ? 'r' : ''), dots: note.dots, clef: 'treble', autoStem: true });
    for (let d = 0; d < note.dots; d++) V.Dot.buildAndAttach([drawn], { all: true });
    const chord = bar.chords.find(c => c.at === note.at);
    if (chord) drawn.addModifier(new V.Annotation(chord.name).setFont('Times', 14, 'bold').setVerticalJustification('above'), 0);
    return drawn;
  });
  const frets = bar.tab.map(note => {
    if (note.rest || !note.positions.length) return new V.GhostNote({ duration: note.type, dots: note.dots });
    const drawn = new V.TabNote({ positions: note.positions, duration: note.type, dots: note.dots });
    drawn.addModifier(new V.Annotation(note.plucks.join(' ')).setFont('Times', 11).setVerticalJustification('below'), 0);
    return drawn;
  });
  const beams = [];
  let group = [];
  bar.notes.forEach((note, i) => {
    if (note.beam) group.push(notes[i]);
    if (note.beam === 'end') { if (group.length > 1) beams.push(new V.Beam(group, true)); group = []; }
  });
  const upper = new V.Voice().setMode(V.VoiceMode.SOFT).addTickables(notes);
  const lower = new V.Voice().setMode(V.VoiceMode.SOFT).addTickables(frets);
  V.Accidental.applyAccidentals([upper], tune.key);
  const formatter = new V.Formatter();
  formatter.joinVoices([upper]);
  formatter.joinVoices([lower]);
  formatter.format([upper, lower], x + width - start - (bar.repeatEnd ? 24 : 12));
  upper.draw(context, staff);
  lower.draw(context, tab);
  beams.forEach(beam => beam.setContext(context).draw());
  const link = (list, drawn, make) => list.forEach((note, i) => note.slurs.forEach(slur => {
    const key = make.name + slur.id;
    if (slur.type === 'start') slurs.set(key, drawn[i]);
    else if (slurs.has(key)) { make(slurs.get(key), drawn[i]); slurs.delete(key); }
  }));
  link(bar.notes, notes, function arc(from, to) { new V.StaveTie({ firstNote: from, lastNote: to, firstIndexes: [0], lastIndexes: [0] }).setContext(context).draw(); });
  link(bar.tab, frets, function word(from, to) { new V.TabTie({ firstNote: from, lastNote: to, firstIndexes: [0], lastIndexes: [0] }).setContext(context).draw(); });
}

const median = values => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

async function run() {
  await document.fonts.ready;
  const into = document.getElementById('page');
  const picture = new URLSearchParams(location.search).get('picture');
  const tunes = (await (await fetch('tunes.json')).json()).map(read);
  if (picture !== null) { draw(tunes[Number(picture)], into); return; }
  const rounds = 8, warm = 3;
  const times = tunes.map(() => []);
  const faults = [];
  for (let round = 0; round < rounds; round++)
    tunes.forEach((tune, i) => {
      try {
        const start = performance.now();
        draw(tune, into);
        if (round >= warm) times[i].push(performance.now() - start);
      } catch (fault) { if (round === 0) faults.push(`${tune.title}: ${fault.message}`); }
    });
  await fetch('result', { method: 'POST', body: JSON.stringify({ times: times.map(t => t.length ? median(t) : null), faults }) });
}
run().catch(fault => fetch('result', { method: 'POST', body: JSON.stringify({ times: [], faults: [String(fault.stack)] }) }));
