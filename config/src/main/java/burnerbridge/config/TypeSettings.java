package burnerbridge.config;

import burnerbridge.site.Name;
import burnerbridge.site.WordOrder;

/**
 * What {@code site.yaml} says of a type, apart from its points.
 *
 * @param points the point list's file, relative to the site folder
 * @param firstBit the number that the manual gives the least significant bit of a register: 0 or 1
 */
record TypeSettings(Name name, String points, Numbering numbering, WordOrder order, int firstBit) {}
