/* Writes numbers as words of ISO 6983-1: a letter and a number with the decimals, the point and the zeros that a control
   wants. Plain ECMAScript 5, nothing else needed.

       var X = ShopWords.writer('X', { decimals: 3, point: 'always' });
       X(12.5)                                    // X12.5

   A writer is told:
     decimals     how many decimals the control takes.
     point        'always' (X12.), 'with_fraction' (X12, X12.5) or 'never': the number counts the last decimal (X12500).
     trailing     true: all decimals are written (X12.500). Usually false.
     leading      false: no 0 before the point (X.5). Usually true.
     suppress     only with point 'never' and whole: which zeros are left out, 'leading' (usual), 'trailing' or 'none'.
     whole        how many digits the control has before the point; a larger number is an error.
     plus         true: positive numbers have a sign.
   Numbers are rounded to the nearest last decimal, halves away from zero. */
var ShopWords = (function () {
  'use strict';

  var WITHIN = 1e-9;

  /* A finite number as whole counts of its last decimal, rounded in decimal, so that 1.0005 is what it looks like. */
  function counts(value, decimals) {
    if (typeof value !== 'number' || !isFinite(value)) throw new Error('A word needs a number, not ' + value + '.');
    var parts = String(Math.abs(value)).split('e');
    var shifted = Number(parts[0] + 'e' + (Number(parts[1] || 0) + decimals));
    var rounded = Math.round(shifted);
    if (rounded > 9007199254740991) throw new Error(value + ' is too large for a word.');
    return value < 0 ? -rounded : rounded;
  }

  /* What stands in the word, as a number. */
  function rounded(value, decimals) {
    return Number(counts(value, decimals) + 'e-' + decimals);
  }

  function zeros(count) {
    return new Array(count + 1).join('0');
  }

  function writer(letter, told) {
    if (!/^[A-Z]$/.test(letter)) throw new Error('A word begins with a letter from A to Z, not ' + letter + '.');
    var decimals = told.decimals || 0;
    var point = told.point || 'with_fraction';
    if (['always', 'with_fraction', 'never'].indexOf(point) < 0) {
      throw new Error('point is always, with_fraction or never, not ' + point + '.');
    }
    var suppress = told.suppress || 'leading';
    if (suppress !== 'leading' && !(point === 'never' && told.whole)) {
      throw new Error('suppress needs point never and the number of whole digits.');
    }
    return function (value) {
      var count = counts(value, decimals);
      var sign = count < 0 ? '-' : told.plus ? '+' : '';
      var digits = String(Math.abs(count));
      if (digits.length <= decimals) digits = zeros(decimals + 1 - digits.length) + digits;
      var before = digits.slice(0, digits.length - decimals);
      var after = digits.slice(digits.length - decimals);
      if (told.whole && before !== '0' && before.length > told.whole) {
        throw new Error(letter + ' ' + value + ' has more than ' + told.whole + ' digits before the point.');
      }
      if (point === 'never') {
        if (suppress === 'leading') return letter + sign + String(Math.abs(count));
        var all = zeros(told.whole - before.length) + before + after;
        return letter + sign + (suppress === 'trailing' ? all.replace(/0+$/, '') || '0' : all);
      }
      if (!told.trailing) after = after.replace(/0+$/, '');
      if (told.leading === false && before === '0' && after) before = '';
      return letter + sign + before + (after || point === 'always' ? '.' + after : '');
    };
  }

  /* A tap moves by its lead each turn. A control that takes a feed by the minute, rounded to its decimals, makes another
     lead of it. Gives the feed to write, the lead it makes, how far that is off at the depth, and speeds at which the feed
     comes out even: none faster, and of the machine's own steps where it has steps. The speed is first rounded as its own
     word is, to `speed_decimals`.

       ShopWords.tap({ lead: 1.25, speed: 470, decimals: 0, depth: 20 }) */
  function tap(told) {
    var decimals = told.decimals || 0;
    ['lead', 'speed', 'depth'].forEach(function (name) {
      if (!(told[name] > 0) || !isFinite(told[name])) throw new Error('A tap needs its ' + name + ', above zero.');
    });
    var turns = rounded(told.speed, told.speed_decimals || 0);
    function even(speed) {
      var exact = told.lead * speed;
      return Math.abs(rounded(exact, decimals) - exact) <= WITHIN * exact;
    }
    function slower() {
      if (told.steps) return told.steps.filter(function (speed) { return speed <= turns; });
      var speeds = [];
      for (var speed = Math.floor(turns); speed > 0 && speed > turns / 2; speed -= 1) speeds.push(speed);
      return speeds;
    }
    var feed = rounded(told.lead * turns, decimals);
    if (!(turns > 0 && feed > 0)) throw new Error('The speed or the feed of this tap rounds to 0. Write it with more decimals.');
    var made = feed / turns;
    var off = (made - told.lead) / told.lead * told.depth;
    var moved = !even(turns);
    var offers = slower().filter(even).sort(function (a, b) { return b - a; }).slice(0, 3)
      .map(function (speed) { return { speed: speed, feed: rounded(told.lead * speed, decimals) }; });
    var says = !moved ? '' : 'Rounded to ' + feed + ', the feed makes a lead of ' + made.toPrecision(6) + ' instead of ' + told.lead +
      ': ' + Math.abs(off).toPrecision(2) + (off > 0 ? ' too far' : ' too short') + ' at a depth of ' + told.depth + '. ' +
      (offers.length ? 'It comes out even at ' + offers.map(function (offer) { return offer.speed; }).join(', ') +
        ' turns a minute, or with a feed by the turn.' : 'Use a feed by the turn or more decimals.');
    return { speed: turns, feed: feed, lead: made, off: off, moved: moved, offers: offers, says: says };
  }

  return { writer: writer, rounded: rounded, tap: tap };
}());

if (typeof module !== 'undefined') module.exports = ShopWords;
