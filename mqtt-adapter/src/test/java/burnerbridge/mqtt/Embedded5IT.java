package burnerbridge.mqtt;

import burnerbridge.site.MqttSettings.Version;

class Embedded5IT extends EmbeddedContract {
    Embedded5IT() {
        super(Version.V5);
    }
}
