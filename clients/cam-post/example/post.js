/* A sample of what a post does with a values file: the tapped holes of a pump flange, as words of ISO 6983-1. Zero is the
   middle of the flange and its top face. Prove a program in the air before it meets a part.

       node post.js values.json inch|metric */
'use strict';
var fs = require('fs');
var path = require('path');
var ShopValues = require(path.join(__dirname, '..', 'values.js'));
var ShopWords = require(path.join(__dirname, '..', 'words.js'));

var metric = process.argv[3] === 'metric';
var values = ShopValues.read(fs.readFileSync(process.argv[2], 'utf8'));
var length = metric ? 'mm' : 'in';
var rate = length + '/min';
var clear = metric ? 5 : 0.2;

var X = ShopWords.writer('X', { decimals: metric ? 3 : 4, point: 'always' });
var Y = ShopWords.writer('Y', { decimals: metric ? 3 : 4, point: 'always' });
var Z = ShopWords.writer('Z', { decimals: metric ? 3 : 4, point: 'always' });
var F = ShopWords.writer('F', { decimals: metric ? 1 : 2, point: 'with_fraction' });
var S = ShopWords.writer('S', { decimals: 0, point: 'with_fraction', whole: 5 });

var lines = ['%'];
function note(text) {
  lines.push('(' + text.replace(/[()]/g, ' ').replace(/[^ -~]/g, ' ') + ')');
}
values.cautions('tap').forEach(note);
lines.push(metric ? 'G71 G90 G94' : 'G70 G90 G94');

function each(work) {
  for (var hole = 0; hole < values.count('holes', 'positions'); hole += 1) {
    var at = 'positions.' + hole + '.';
    lines.push(['G00', X(values.number('holes', at + 'x', length)), Y(values.number('holes', at + 'y', length))].join(' '));
    lines.push('G00 ' + Z(clear));
    work();
  }
}

lines.push('T1 M06', S(values.number('drill', 'spindle_speed', 'rpm')) + ' M03');
each(function () {
  lines.push(['G01', Z(-values.number('point', 'tip_depth', length)), F(values.number('drill', 'feed_rate', rate))].join(' '));
  lines.push('G00 ' + Z(clear));
});

/* The spindle's speed and the feed of a tap go together: the word that is written decides the lead that is cut. */
var told = {
  lead: values.number('tap', 'feed_per_rev', length + '/rev'), speed: values.number('tap', 'spindle_speed', 'rpm'),
  decimals: metric ? 1 : 2, depth: metric ? 15 : 0.6,
  steps: [112, 160, 224, 315, 450, 630, 900, 1250],
};
var tap = ShopWords.tap(told);
if (tap.moved) console.error(tap.says);
lines.push('M05', 'T2 M06', S(tap.speed) + ' M03');
each(function () {
  lines.push(['G84', Z(-told.depth), F(tap.feed)].join(' '), 'G80', 'G00 ' + Z(clear));
});
lines.push('M05', 'M30', '%');
console.log(lines.join('\n'));
