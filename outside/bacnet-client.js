// Speaks to a BACnet/IP device with an independent client and prints one line of JSON.
//
//   node bacnet-client.js HOST:PORT OWN-PORT who-is
//   node bacnet-client.js HOST:PORT OWN-PORT who-is-through INSTANCE
//   node bacnet-client.js HOST:PORT OWN-PORT i-am INSTANCE
//   node bacnet-client.js HOST:PORT OWN-PORT read TYPE:INSTANCE[,TYPE:INSTANCE...] PROPERTY[,PROPERTY...]
//   node bacnet-client.js HOST:PORT OWN-PORT read-multiple TYPE:INSTANCE[,...] PROPERTY[,...]
//   node bacnet-client.js HOST:PORT OWN-PORT write TYPE:INSTANCE PROPERTY VALUE [DATATYPE [PRIORITY]]
//   node bacnet-client.js HOST:PORT OWN-PORT write-multiple TYPE:INSTANCE=VALUE/DATATYPE[,...] PRIORITY
//   node bacnet-client.js HOST:PORT OWN-PORT cov TYPE:INSTANCE COUNT
//
// Types, properties and datatypes are the numbers of the standard; a datatype of 0 is Null, without one it is 4, REAL,
// and without a priority 8. Of write-multiple each value is a Present_Value. With BACNET_BROADCAST set to an address,
// who-is asks everybody there, from any interface. With who-is-through, HOST is a broadcast management device: the client
// registers with it as a foreign device and asks everybody by way of it, until INSTANCE has answered.
'use strict';
const { default: Client } = require('@bacnet-js/client');

const [device, ownPort, verb, ...rest] = process.argv.slice(2);
const broadcast = process.env.BACNET_BROADCAST;
const client = new Client({
  port: Number(ownPort),
  interface: broadcast ? '0.0.0.0' : '127.0.0.1',
  broadcastAddress: broadcast || '127.255.255.255',
  apduTimeout: 3000,
});
const receiver = { address: device };
const objects = (text) => text.split(',').map((o) => {
  const [type, instance] = o.split(':').map(Number);
  return { type, instance };
});
const typed = (value, type) => ({ type: Number(type), value: type === '0' ? null : Number(value) });
const plain = (values) => values.map((v) => {
  if (v.value && v.value.bitsUsed !== undefined) {
    return Array.from({ length: v.value.bitsUsed }, (_, i) => (v.value.value[i >> 3] >> (i % 8)) & 1);
  }
  return v.value;
});

const verbs = {
  'who-is': () => new Promise((resolve) => {
    const ask = () => (broadcast ? client.whoIs() : client.whoIs(receiver));
    const again = setInterval(ask, 1000);
    client.on('iAm', (message) => {
      clearInterval(again);
      resolve(message.payload);
    });
    ask();
  }),
  'who-is-through': async (instance) => {
    await client.registerForeignDevice(receiver, 60);
    return new Promise((resolve) => {
      client.on('iAm', (message) => {
        if (message.payload.deviceId === Number(instance)) {
          clearInterval(again);
          resolve({ ...message.payload, forwardedFrom: message.header.sender.forwardedFrom });
        }
      });
      const again = setInterval(() => client.whoIsThroughBBMD(receiver), 500);
    });
  },
  // Says to one station that a device of this instance is here; nothing answers that.
  'i-am': (instance) => new Promise((resolve) => {
    client.iAmResponse(receiver, Number(instance), 3, 99);
    setTimeout(() => resolve('said'), 300);
  }),
  read: async (list, properties) => {
    const result = {};
    for (const object of objects(list)) {
      for (const property of properties.split(',').map(Number)) {
        const reply = await client.readProperty(receiver, object, property);
        result[`${object.type}:${object.instance}:${property}`] = plain(reply.values);
      }
    }
    return result;
  },
  'read-multiple': async (list, properties) => {
    const reply = await client.readPropertyMultiple(receiver, objects(list).map((objectId) => (
      { objectId, properties: properties.split(',').map((p) => ({ id: Number(p) })) })));
    const result = {};
    for (const object of reply.values) {
      for (const property of object.values) {
        result[`${object.objectId.type}:${object.objectId.instance}:${property.id}`] = plain(property.value);
      }
    }
    return result;
  },
  write: async (object, property, value, type = '4', priority = '8') => {
    await client.writeProperty(
      receiver, objects(object)[0], Number(property), [typed(value, type)], { priority: Number(priority) });
    return 'accepted';
  },
  'write-multiple': async (list, priority) => {
    await client.writePropertyMultiple(receiver, list.split(',').map((item) => {
      const [object, value, type] = item.split(/[=/]/);
      return {
        objectId: objects(object)[0],
        // Without an index the client would send one of 0; this one means that there is none.
        values: [{ property: { id: 85, index: 0xFFFFFFFF }, value: [typed(value, type)], priority: Number(priority) }],
      };
    }));
    return 'accepted';
  },
  cov: (object, count) => new Promise((resolve, reject) => {
    const seen = [];
    client.on('covNotifyUnconfirmed', (message) => {
      seen.push(message.payload.values.map((v) => ({ property: v.property.id, value: plain(v.value) })));
      if (seen.length === Number(count)) resolve(seen);
    });
    client.subscribeCov(receiver, objects(object)[0], 7, false, false, 60)
      .then(() => process.stderr.write('subscribed\n'), reject);
  }),
};

const limit = setTimeout(() => end(4, { error: `no answer to ${verb} within 30 s` }), 30000);
function end(code, answer) {
  clearTimeout(limit);
  process.stdout.write(`${JSON.stringify(answer)}\n`, () => process.exit(code));
}
verbs[verb](...rest).then((answer) => end(0, answer), (error) => end(3, { error: error.message }));
