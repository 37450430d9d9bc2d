package burnerbridge.mqtt;

import burnerbridge.site.MqttSettings.Version;

class Embedded311IT extends EmbeddedContract {
    Embedded311IT() {
        super(Version.V3_1_1);
    }
}
