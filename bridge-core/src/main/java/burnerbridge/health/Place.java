package burnerbridge.health;

import java.util.Locale;

/** Where the cause of a trouble is most likely to be found. */
public enum Place {
    /** The controller itself: it answers, but refuses or says that it cannot; or it alone is silent on its line. */
    BURNER,
    /** What lies between the box and a controller on a serial line, or behind a device server: wire, plug, adapter. */
    CABLE,
    /** The network: nothing answers at an address, a port, or broadcasts do not arrive. */
    NETWORK,
    /** The MQTT broker, or the way to it. */
    BROKER,
    /** The box and the program: its folders, its clock, its memory, its ports. */
    BRIDGE,
    /** What a person wrote or has to do: the site folder, an approval. */
    SITE;

    /** As people and programs read it: {@code burner}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
