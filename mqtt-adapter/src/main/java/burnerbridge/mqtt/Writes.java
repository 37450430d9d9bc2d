package burnerbridge.mqtt;

import burnerbridge.mqtt.door.Gate;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * What the adapter has of the write gate.
 *
 * @param auditHead the newest record of the audit; empty where nothing may be written
 * @param gate empty where nobody may ask for anything
 */
record Writes(Supplier<Optional<String>> auditHead, Optional<Gate> gate, WriteNews news) {}
