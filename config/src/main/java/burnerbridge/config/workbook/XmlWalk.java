package burnerbridge.config.workbook;

import java.io.ByteArrayInputStream;
import java.util.function.Consumer;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** Goes through the elements of an XML part, without any of what XML can fetch from elsewhere. */
final class XmlWalk {
    private XmlWalk() {}

    /** Shows each element's start. */
    static void over(byte[] part, Consumer<XMLStreamReader> starts) throws WorkbookException {
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        try {
            XMLStreamReader reader = factory.createXMLStreamReader(new ByteArrayInputStream(part));
            while (reader.hasNext()) {
                if (reader.next() == XMLStreamReader.START_ELEMENT) {
                    starts.accept(reader);
                }
            }
            reader.close();
        } catch (XMLStreamException e) {
            throw new WorkbookException("is broken: " + firstLine(String.valueOf(e.getMessage())), e);
        }
    }

    private static String firstLine(String text) {
        return text.lines().findFirst().orElse("");
    }

    static String attribute(XMLStreamReader reader, String name) {
        String value = reader.getAttributeValue(null, name);
        return value == null ? "" : value;
    }
}
