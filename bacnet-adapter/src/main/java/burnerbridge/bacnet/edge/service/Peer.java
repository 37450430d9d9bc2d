package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.Octets;

/**
 * Who sent a request, as far as its datagram tells; nothing of it is proved.
 *
 * @param address IPv4, as a number, the first octet the most significant
 * @param port of the datagram
 * @param network that it came from through a router; 0 where the station itself sent it
 * @param remote its address on that network; empty where the station itself sent it
 */
public record Peer(int address, int port, int network, Octets remote) {}
