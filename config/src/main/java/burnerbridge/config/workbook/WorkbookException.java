package burnerbridge.config.workbook;

/** A workbook of which no point list can be made; the message tells a person why, and what to do. */
public final class WorkbookException extends Exception {
    private static final long serialVersionUID = 1L;

    WorkbookException(String message) {
        super(message);
    }

    WorkbookException(String message, Throwable cause) {
        super(message, cause);
    }
}
