package burnerbridge.daemon.screen;

/** What a key asks for. */
enum Key {
    QUIT,
    NEXT_PAGE,
    PAGE_BEFORE,
    NEXT_LINE,
    LINE_BEFORE
}
