package burnerbridge.bacnet.documents;

import burnerbridge.bacnet.device.Inventory;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Site;
import java.time.LocalDate;
import java.util.List;

/**
 * The documents that a building's engineers ask for: the tables of engineering data exchange in the layout of
 * the BACnet Interest Group Europe, and the protocol implementation conformance statement of ASHRAE 135,
 * Annex A. Each says what is served and nothing else.
 */
public final class BacnetDocuments {
    private BacnetDocuments() {}

    /** All of them, for a site whose BACnet side is on. */
    public static List<Document> of(BacnetSettings settings, Site site, BridgeClock clock) {
        Inventory inventory = Inventory.of(settings, site, clock);
        LocalDate day = clock.now().wall().atZone(site.zone()).toLocalDate();
        StateTexts texts = StateTexts.of(inventory);
        ExchangeTable table = new ExchangeTable(inventory, texts, site.name().text(), day);
        return List.of(
                new Document("ede.csv", table.text(true)),
                new Document("ede-16-columns.csv", table.text(false)),
                new Document("ede-state-texts.csv", texts.text()),
                new Document("ede-units.csv", UnitTexts.of(inventory)),
                new Document("bacnet-conformance.md", new ConformanceStatement(inventory, day).text()));
    }
}
