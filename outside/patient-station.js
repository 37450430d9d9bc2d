// A station on BACnet/IP that bears a poor network, and prints what it is told: one line of JSON each.
//
//   node patient-station.js HOST:PORT OWN-ADDRESS OWN-PORT OBJECTS REQUEST INTERVAL
//
// OBJECTS is TYPE:INSTANCE[,...]. It subscribes twice to each, for notifications that are confirmed and that are not,
// and renews that; it reads all of them together again and again, in segments of 206 octets; and it writes 1000, 1001,
// 1002 ... to the Present_Value of REQUEST, another value every INTERVAL ms, at priority 8. Whatever is not answered is
// asked again, a write with its next value. Lines:
//
//   {"at": ms, "how": "confirmed" | "unconfirmed" | "read", "object": "48:1", "value": 7, "flags": "0000"}
//   {"at": ms, "how": "write", "value": 1000, "answer": "accepted" | what the error says}
//   {"at": ms, "how": "unanswered", "what": "read" | "subscription"}
//
// Segments are collected here, since those of two replies must not be mixed where they come late; the library reads
// what they hold.
'use strict';
const dgram = require('dgram');
const { default: Client, MaxApduLengthAccepted } = require('@bacnet-js/client');
const services = require('@bacnet-js/client/dist/lib/services');

const [device, ownAddress, ownPort, objectList, request, interval] = process.argv.slice(2);
const [host, port] = device.split(':');
const objects = objectList.split(',').map((text) => {
  const [type, instance] = text.split(':').map(Number);
  return { type, instance };
});
const receiver = { address: device };
const PRESENT_VALUE = 85;
const STATUS_FLAGS = 111;
const LIFETIME = 60;
const RENEWED_AFTER = 20000;
const PATIENCE = 3000;
const READ_PATIENCE = 10000;
const BETWEEN_READS = 300;

const client = new Client({
  port: Number(ownPort), interface: ownAddress, broadcastAddress: '10.77.0.255', apduTimeout: PATIENCE,
});
const wait = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });
const say = (line) => process.stdout.write(`${JSON.stringify({ at: Date.now(), ...line })}\n`);
const flagsOf = (bits) => Array.from({ length: bits.bitsUsed }, (_, i) => (bits.value[i >> 3] >> (i % 8)) & 1).join('');

function tell(how, object, values) {
  const of = (id) => values.find((each) => (each.property ? each.property.id : each.id) === id).value[0].value;
  say({ how, object: `${object.type}:${object.instance}`, value: of(PRESENT_VALUE), flags: flagsOf(of(STATUS_FLAGS)) });
}

client.on('covNotifyUnconfirmed', (message) => {
  tell('unconfirmed', message.payload.monitoredObjectId, message.payload.values);
});
client.on('covNotify', (message) => {
  client.simpleAckResponse(receiver, message.service, message.invokeId);
  tell('confirmed', message.payload.monitoredObjectId, message.payload.values);
});

/** One subscription for ever. */
async function subscribe(object, id, confirmed) {
  for (;;) {
    try {
      await client.subscribeCov(receiver, object, id, false, confirmed, LIFETIME);
      await wait(RENEWED_AFTER);
    } catch (error) {
      say({ how: 'unanswered', what: 'subscription' });
    }
  }
}

async function write() {
  const [type, instance] = request.split(':').map(Number);
  for (let value = 1000; ; value += 1) {
    const next = wait(Number(interval));
    try {
      await client.writeProperty(
        receiver, { type, instance }, PRESENT_VALUE, [{ type: 4, value }], { priority: 8 });
      say({ how: 'write', value, answer: 'accepted' });
    } catch (error) {
      say({ how: 'write', value, answer: error.message });
    }
    await next;
  }
}

/** All objects in one reply of many segments (ASHRAE 135, 5.4), by a socket of its own. */
class Reader {
  constructor() {
    this.socket = dgram.createSocket('udp4');
    this.invokeId = 0;
    this.socket.on('message', (datagram) => this.take(datagram.subarray(6)));
  }

  send(apdu) {
    const head = Buffer.from([0x81, 0x0A, 0, 0, 1, 4]);
    head.writeUInt16BE(head.length + apdu.length, 2);
    this.socket.send(Buffer.concat([head, apdu]), Number(port), host);
  }

  read() {
    this.invokeId = (this.invokeId + 1) % 256;
    this.segments = [];
    this.acknowledged = 0;
    this.isWhole = false;
    const body = { buffer: Buffer.alloc(1400), offset: 0 };
    services.ReadPropertyMultiple.encode(body, objects.map((objectId) => (
      { objectId, properties: [{ id: PRESENT_VALUE, index: 0xFFFFFFFF }, { id: STATUS_FLAGS, index: 0xFFFFFFFF }] })));
    // A confirmed request that takes segments: more than 64 of 206 octets; ReadPropertyMultiple.
    const head = [0x02, 0x70 | MaxApduLengthAccepted.OCTETS_206, this.invokeId, 14];
    this.send(Buffer.concat([Buffer.from(head), body.buffer.subarray(0, body.offset)]));
    return new Promise((resolve, reject) => {
      const late = setTimeout(() => reject(new Error('late')), READ_PATIENCE);
      this.done = (octets) => {
        clearTimeout(late);
        resolve(octets);
      };
    });
  }

  take(apdu) {
    // A segment of a complex acknowledgement, of the reply that is waited for.
    if ((apdu[0] & 0xF8) !== 0x38 || apdu[1] !== this.invokeId) return;
    const [, , sequence, window] = apdu;
    if (sequence !== this.segments.length % 256 || this.isWhole) {
      // It came twice or too early: say what was had last, from where the sender goes on.
      if (this.segments.length > 0) this.acknowledge(!this.isWhole, window);
      return;
    }
    this.segments.push(apdu.subarray(5));
    this.isWhole = (apdu[0] & 4) === 0;
    if (this.isWhole || sequence === 0 || this.segments.length - this.acknowledged === window) {
      this.acknowledge(false, window);
    }
    if (this.isWhole) this.done(Buffer.concat(this.segments));
  }

  acknowledge(negative, window) {
    this.acknowledged = this.segments.length;
    this.send(Buffer.from([negative ? 0x42 : 0x40, this.invokeId, (this.segments.length + 255) % 256, window]));
  }
}

async function readAll() {
  const reader = new Reader();
  for (;;) {
    try {
      const octets = await reader.read();
      const answer = services.ReadPropertyMultiple.decodeAcknowledge(octets, 0, octets.length);
      if (!answer || answer.values.length !== objects.length) throw new Error(`${octets.length} octets are no answer`);
      answer.values.forEach((each) => tell('read', each.objectId, each.values));
    } catch (error) {
      if (error.message !== 'late') throw error;
      say({ how: 'unanswered', what: 'read' });
    }
    await wait(BETWEEN_READS);
  }
}

objects.forEach((object, i) => {
  subscribe(object, 2 * i + 1, false);
  subscribe(object, 2 * i + 2, true);
});
readAll();
write();
