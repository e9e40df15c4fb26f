// The published description of one topic, to read and to try: its operations folded, each drawn when it is opened.
(() => {
  'use strict';
  const place = document.getElementById('operations');
  if (!place) return;
  let description;

  const make = (name, more = {}, ...inside) => {
    const element = document.createElement(name);
    for (const [key, value] of Object.entries(more)) {
      if (key in element) element[key] = value;
      else element.setAttribute(key, value);
    }
    element.append(...inside);
    return element;
  };
  const resolve = (value) =>
    value && value.$ref ? value.$ref.slice(2).split('/').reduce((at, key) => at[key], description) : value || {};
  const nameOf = (value) => (value.$ref ? value.$ref.split('/').pop() : '');

  // A part that is drawn when it is first opened.
  const folded = (title, draw, more = {}) => {
    const details = make('details', { className: 'more', ...more }, make('summary', {}, ...[].concat(title)));
    details.addEventListener('toggle', () => details.open && details.childElementCount === 1 && details.append(...[].concat(draw())));
    return details;
  };

  // Schemas.
  const kindsOf = (schema) => schema.oneOf || schema.anyOf;
  const members = (of) => {
    const schema = resolve(of);
    const parts = [...(schema.allOf || []).map(members), { properties: schema.properties || {}, required: schema.required || [] }];
    return {
      properties: Object.assign({}, ...parts.map((part) => part.properties)),
      required: parts.flatMap((part) => part.required),
    };
  };
  const wordsOf = (of) => {
    const schema = resolve(of);
    if (schema.enum) return schema.enum.length > 12 ? `one of ${schema.enum.length} words` : schema.enum.join(', ');
    if (kindsOf(schema)) return nameOf(of) || [...new Set(kindsOf(schema).map(wordsOf))].join(' or ');
    if (schema.type === 'array') return `list of ${wordsOf(schema.items)}`;
    return nameOf(of) || schema.type || 'object';
  };
  const isDeep = (of) => {
    const schema = resolve(of);
    if (schema.type === 'array') return isDeep(schema.items);
    return Boolean(kindsOf(schema) || Object.keys(members(of).properties).length);
  };
  const shape = (of) => {
    const schema = resolve(of);
    if (schema.type === 'array') return shape(schema.items);
    if (kindsOf(schema)) {
      return kindsOf(schema).map((kind) => (isDeep(kind) ? folded(wordsOf(kind), () => shape(kind)) : make('p', {}, wordsOf(kind))));
    }
    const { properties, required } = members(of);
    const list = make('dl', { className: 'shape' });
    for (const [name, property] of Object.entries(properties)) {
      const needed = required.includes(name) ? '' : ', may be absent';
      list.append(make('dt', {}, make('code', {}, name), ` ${wordsOf(property)}${needed}`));
      const about = make('dd', {}, property.description || resolve(property).description || '');
      if (isDeep(property)) about.append(folded('What it has', () => shape(property)));
      list.append(about);
    }
    return [list];
  };

  // Asking.
  const shellQuoted = (text) => `'${text.replaceAll("'", "'\\''")}'`;
  const stated = (value) => {
    if (value === undefined) return '';
    if (Array.isArray(value)) return value.join(',');
    if (typeof value === 'object') return Object.entries(value).map(([name, one]) => `${name}=${one}`).join('\n');
    return String(value);
  };
  const entry = (parameter, id) => {
    const schema = resolve(parameter.schema);
    const choices = schema.enum || (schema.type === 'boolean' ? ['true', 'false'] : null);
    const value = stated(parameter.example);
    if (choices) {
      const options = choices.map((word) => make('option', { value: word, selected: word === value }, word));
      if (!parameter.required) options.unshift(make('option', { value: '', selected: !value }, ''));
      return make('select', { id }, ...options);
    }
    const plain = { id, value, autocapitalize: 'off', spellcheck: false, autocomplete: 'off' };
    // A phone is about so many letters wide: what is longer is seen whole on several lines.
    const lines = Math.ceil(value.length / 24);
    if (schema.type === 'object' || lines > 1) return make('textarea', { ...plain, rows: Math.max(schema.type === 'object' ? 3 : 2, lines) });
    return make('input', { ...plain, type: 'text' });
  };
  const addressOf = (path, entries) => {
    let address = path;
    const query = [];
    for (const { parameter, element } of entries) {
      const isLines = resolve(parameter.schema).type === 'object';
      const value = isLines ? element.value.trim() : element.value.replace(/\s*\n\s*/g, ' ').trim();
      if (parameter.in === 'path') address = address.replace(`{${parameter.name}}`, encodeURIComponent(value));
      if (parameter.in !== 'query' || !value) continue;
      const pairs = isLines
        ? value.split('\n').filter((line) => line.includes('=')).map((line) => [line.slice(0, line.indexOf('=')), line.slice(line.indexOf('=') + 1)])
        : [[parameter.name, value]];
      query.push(...pairs.map(([name, one]) => `${encodeURIComponent(name.trim())}=${encodeURIComponent(one.trim())}`));
    }
    return query.length ? `${address}?${query.join('&')}` : address;
  };
  // What is longer is not shown whole: a page of it would be slow, and nobody reads it.
  const SHOWN = 60000;
  const pretty = (text, type) => {
    let shown = text;
    if (/json/.test(type) && !/ndjson/.test(type)) shown = JSON.stringify(JSON.parse(text), null, 2);
    return shown.length > SHOWN ? `${shown.slice(0, SHOWN)}\n… and ${shown.length - SHOWN} characters more` : shown;
  };

  const form = (method, path, operation) => {
    const id = (name) => `${operation.operationId}.${name}`;
    const entries = (operation.parameters || []).map(resolve).map((parameter) => ({ parameter, element: entry(parameter, id(parameter.name)) }));
    const asked = make('form', { className: 'try-out', noValidate: true });
    const row = ({ parameter, element }) => make('div', { className: 'field' },
      make('label', { htmlFor: element.id }, make('code', {}, parameter.name), parameter.required ? make('span', { className: 'needed' }, ' needed') : ''),
      element, make('p', { className: 'about' }, parameter.description));
    // What is stated or needed stands first; the rest is folded.
    const isFirst = ({ parameter, element }) => parameter.required || element.value;
    asked.append(...entries.filter(isFirst).map(row));
    const others = entries.filter((one) => !isFirst(one));
    if (others.length) asked.append(make('details', { className: 'more' }, make('summary', {}, `${others.length} more fields`), ...others.map(row)));
    const bodies = Object.entries((operation.requestBody || {}).content || {});
    const media = make('select', { id: id('media') }, ...bodies.map(([name]) => make('option', {}, name)));
    const body = make('textarea', { id: id('body'), rows: 8, spellcheck: false });
    const fill = () => {
      const content = bodies.find(([name]) => name === media.value)[1];
      body.value = typeof content.example === 'string' ? content.example : JSON.stringify(content.example, null, 2);
    };
    if (bodies.length) {
      fill();
      asked.append(make('div', { className: 'field' }, make('label', { htmlFor: media.id }, 'Media type'), media),
        make('div', { className: 'field' }, make('label', { htmlFor: body.id }, 'Body'), body));
    }
    const curl = make('pre', { className: 'curl', tabIndex: 0 });
    const answer = make('div', { className: 'answered', role: 'status' });
    const headers = () => {
      const sent = {};
      for (const { parameter, element } of entries) if (parameter.in === 'header' && element.value.trim()) sent[parameter.name] = element.value.trim();
      if (bodies.length) sent['Content-Type'] = media.value;
      return sent;
    };
    const tell = () => {
      const said = Object.entries(headers()).map(([name, value]) => ` -H ${shellQuoted(`${name}: ${value}`)}`).join('');
      const data = bodies.length ? ` --data-binary ${shellQuoted(body.value)}` : '';
      curl.textContent = `curl ${shellQuoted(location.origin + addressOf(path, entries))}${said}${data}`;
    };
    media.addEventListener('change', fill);
    asked.addEventListener('input', tell);
    asked.addEventListener('change', tell);
    asked.addEventListener('submit', async (event) => {
      event.preventDefault();
      try {
        const options = { method: method.toUpperCase(), headers: headers(), cache: 'no-store' };
        if (bodies.length) options.body = body.value;
        const response = await fetch(addressOf(path, entries), options);
        const text = await response.text();
        const type = response.headers.get('content-type') || '';
        const told = ['content-type', 'etag', 'retry-after'].filter((name) => response.headers.get(name));
        answer.replaceChildren(
          make('p', {}, make('b', { className: 'status' }, `${response.status} ${response.statusText}`)),
          make('pre', { className: 'headers', tabIndex: 0 }, told.map((name) => `${name}: ${response.headers.get(name)}`).join('\n')),
          make('pre', { className: 'body', tabIndex: 0 }, pretty(text, type)));
      } catch (error) {
        answer.replaceChildren(make('p', { className: 'wrong' }, `No answer: ${error.message}`));
      }
    });
    tell();
    asked.append(make('div', { className: 'submit' }, make('button', { type: 'submit' }, 'Send')));
    return [asked, make('h2', {}, 'From a shell'), curl, answer];
  };

  const responses = (operation) => {
    const list = make('dl', { className: 'shape' });
    for (const [status, of] of Object.entries(operation.responses)) {
      const response = resolve(of);
      list.append(make('dt', {}, make('code', {}, status)));
      const about = make('dd', {}, response.description);
      for (const [media, content] of Object.entries(response.content || {})) {
        about.append(' ', make('code', {}, media));
        if (isDeep(content.schema)) about.append(folded(wordsOf(content.schema), () => shape(content.schema)));
      }
      list.append(about);
    }
    return list;
  };

  const drawn = (method, path, operation) => {
    const parts = [make('p', {}, operation.description), ...form(method, path, operation)];
    const bodies = Object.values((operation.requestBody || {}).content || {});
    if (bodies.length && isDeep(bodies[0].schema)) parts.push(folded('What the body has', () => shape(bodies[0].schema)));
    parts.push(make('h2', {}, 'Answers'), responses(operation));
    return parts;
  };

  const list = () => {
    const all = Object.entries(description.paths).flatMap(([path, item]) => Object.entries(item).map(([method, operation]) => [method, path, operation]));
    place.replaceChildren(...all.map(([method, path, operation]) => folded(
      [make('b', {}, method.toUpperCase()), ' ', make('code', {}, path), make('span', { className: 'about' }, ` ${operation.summary}`)],
      () => drawn(method, path, operation), { id: operation.operationId, className: 'operation more' })));
    place.removeAttribute('aria-busy');
    const wanted = document.getElementById(location.hash.slice(1));
    if (wanted && wanted.matches('.operation')) {
      wanted.open = true;
      wanted.scrollIntoView();
    }
  };

  fetch(place.dataset.description)
    .then((response) => response.json())
    .then((json) => {
      description = json;
      list();
    })
    .catch((error) => place.replaceChildren(make('p', { className: 'wrong' }, `The description cannot be had: ${error.message}`)));
})();
