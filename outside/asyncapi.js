// Has AsyncAPI's own parser read a document; tells every error and ends with 1 where there is one.
'use strict';

const fs = require('fs');
const { Parser } = require('@asyncapi/parser');

const [file] = process.argv.slice(2);

new Parser().parse(fs.readFileSync(file, 'utf8')).then(({ document, diagnostics }) => {
  const errors = diagnostics.filter((d) => d.severity === 0);
  errors.forEach((d) => console.log(`${d.code} at ${d.path.join('/')}: ${d.message}`));
  if (document) {
    document.channels().all().forEach((channel) => console.log(`channel ${channel.address()}`));
    document.operations().all().forEach((operation) => console.log(`${operation.action()} ${operation.id()}`));
  }
  process.exit(document && errors.length === 0 ? 0 : 1);
});
