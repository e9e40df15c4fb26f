/* Reads a values file into a script-based post: numbers by the name of their request, each asked for with its unit.
   Plain ECMAScript 5, nothing else needed: include it, or read it and evaluate it.

       var values = ShopValues.read(text);
       var speed = values.number('T3', 'spindle_speed', 'rpm');

   Everything that is not as it should be is an Error in words. */
var ShopValues = (function () {
  'use strict';

  /* CRC-32 of ITU-T V.42 over ASCII text, as eight hexadecimal digits. */
  function checksum(text) {
    var sum = 0xffffffff;
    for (var at = 0; at < text.length; at += 1) {
      sum ^= text.charCodeAt(at);
      for (var bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
    }
    return ('0000000' + ((sum ^ 0xffffffff) >>> 0).toString(16)).slice(-8);
  }

  function names(of) {
    return Object.keys(of).join(', ') || 'none';
  }

  function has(of, name) {
    return Object.prototype.hasOwnProperty.call(of, name);
  }

  function Values(document) {
    this.units = document.units;
    this.madeBy = document.made_by;
    this.all = document.values;
  }

  /* All that is kept of a request: calculator, inputs, assumed, result, notes, cautions, link. */
  Values.prototype.request = function (id) {
    if (!has(this.all, id)) throw new Error('The values file has no request ' + id + '; it has ' + names(this.all) + '.');
    return this.all[id];
  };

  /* What stands at a path of the result, such as tip_depth or positions.0.x, rows counted from 0. */
  Values.prototype.at = function (id, path) {
    var part = this.request(id).result;
    var steps = path.split('.');
    for (var i = 0; i < steps.length; i += 1) {
      if (part === null || typeof part !== 'object' || !has(part, steps[i])) {
        var there = part !== null && typeof part === 'object' ? names(part) : 'nothing more';
        throw new Error(id + ' has no ' + path + ': beside ' + steps[i] + ' there is ' + there + '.');
      }
      part = part[steps[i]];
    }
    return part;
  };

  /* A number in the unit that the post expects. A number of another unit is an error and never converted. */
  Values.prototype.number = function (id, path, unit) {
    var found = this.at(id, path);
    if (found === null || typeof found !== 'object' || typeof found.value !== 'number') {
      throw new Error(id + ' ' + path + ' is no quantity.');
    }
    if (found.unit !== unit) throw new Error(id + ' ' + path + ' is in ' + found.unit + ', and the post expects ' + unit + '.');
    return found.value;
  };

  /* How many rows a list has. */
  Values.prototype.count = function (id, path) {
    var found = this.at(id, path);
    if (!Array.isArray(found)) throw new Error(id + ' ' + path + ' is no list.');
    return found.length;
  };

  /* The cautions of a request, for the head of the program. */
  Values.prototype.cautions = function (id) {
    return this.request(id).cautions.map(function (caution) { return caution.says; });
  };

  function read(text) {
    /* Copied through a tool that ends lines otherwise, the file is still the same. */
    var whole = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
    var head = /^\{\n {2}"checksum": "([0-9a-f]{8})",\n/.exec(whole);
    if (!head) throw new Error('This is no values file: it does not begin with its checksum.');
    if (checksum(whole.slice(head[0].length)) !== head[1]) {
      throw new Error('The values file was changed after it was written. Write it again.');
    }
    var document = JSON.parse(whole);
    if (document.form !== 'values 1') throw new Error('This reader knows the form "values 1", and not "' + document.form + '".');
    return new Values(document);
  }

  return { read: read, checksum: checksum };
}());

if (typeof module !== 'undefined') module.exports = ShopValues;
