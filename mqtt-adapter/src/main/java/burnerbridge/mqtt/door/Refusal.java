package burnerbridge.mqtt.door;

import burnerbridge.write.ask.Source;

/** What is refused before the gate is asked, for the audit and for the asker. */
record Refusal(Source source, String wanted, String code, String sentence) {}
