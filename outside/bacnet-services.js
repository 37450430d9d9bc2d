// Prints the services of an independent BACnet client, one a line: kind, number and name without hyphens.
'use strict';
const { ConfirmedServiceChoice, UnconfirmedServiceChoice } = require('@bacnet-js/client');

for (const [kind, table] of [['confirmed', ConfirmedServiceChoice], ['unconfirmed', UnconfirmedServiceChoice]]) {
  for (const [name, number] of Object.entries(table)) {
    if (typeof number === 'number') {
      process.stdout.write(`${kind} ${number} ${name.toLowerCase().replace(/_/g, '')}\n`);
    }
  }
}
