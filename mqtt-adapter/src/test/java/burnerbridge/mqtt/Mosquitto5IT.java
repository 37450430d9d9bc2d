package burnerbridge.mqtt;

import burnerbridge.site.MqttSettings.Version;

class Mosquitto5IT extends MosquittoContract {
    Mosquitto5IT() {
        super(Version.V5);
    }
}
