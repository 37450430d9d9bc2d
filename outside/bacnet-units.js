// Prints the engineering units of an independent BACnet client, one a line: number and name.
'use strict';
const { EngineeringUnits } = require('@bacnet-js/client');

for (const [name, number] of Object.entries(EngineeringUnits)) {
  if (typeof number === 'number') {
    process.stdout.write(`${number} ${name.toLowerCase().replace(/_/g, '-')}\n`);
  }
}
