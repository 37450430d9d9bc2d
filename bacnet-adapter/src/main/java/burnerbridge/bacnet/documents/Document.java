package burnerbridge.bacnet.documents;

/**
 * One document.
 *
 * @param name of its file
 */
public record Document(String name, String text) {}
