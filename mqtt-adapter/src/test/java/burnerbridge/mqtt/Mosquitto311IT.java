package burnerbridge.mqtt;

import burnerbridge.site.MqttSettings.Version;

class Mosquitto311IT extends MosquittoContract {
    Mosquitto311IT() {
        super(Version.V3_1_1);
    }
}
