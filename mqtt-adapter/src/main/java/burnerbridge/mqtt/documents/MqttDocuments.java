package burnerbridge.mqtt.documents;

import burnerbridge.site.MqttSettings;
import burnerbridge.site.Site;
import java.util.LinkedHashMap;
import java.util.Map;

/** The documents of a site's MQTT side, made from its configuration: the same site gives the same text. */
public final class MqttDocuments {
    /** An AsyncAPI 3.0.0 description of every topic. */
    public static final String TOPICS = "mqtt-asyncapi.json";
    /** A JSON Schema (draft 7) of every payload. */
    public static final String PAYLOADS = "mqtt-payload.schema.json";
    /** The rights that bridge and readers need, as an access list of mosquitto's. */
    public static final String RIGHTS = "mqtt-access-list.txt";

    private MqttDocuments() {}

    /**
     * Each document by the name of its file.
     *
     * @param version of the program, for the description
     */
    public static Map<String, String> of(MqttSettings settings, Site site, String version) {
        Map<String, String> documents = new LinkedHashMap<>();
        documents.put(TOPICS, Json.text(new TopicsDocument(settings, site, version).tree()));
        documents.put(PAYLOADS, Json.text(PayloadSchemas.document(site, settings.version())));
        documents.put(RIGHTS, AccessList.of(settings, site));
        return documents;
    }
}
