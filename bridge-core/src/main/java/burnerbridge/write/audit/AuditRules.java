package burnerbridge.write.audit;

/**
 * How much a chain keeps.
 *
 * @param fileSize after how many bytes another file is begun; 1,024 or more
 * @param files how many files are kept, the newest included; 2 or more
 * @param refusals how many records of refusals a minute may have; 4 or more
 */
public record AuditRules(long fileSize, int files, int refusals) {
    public static final AuditRules USUAL = new AuditRules(4L << 20, 8, 60);

    private static final long SMALLEST_FILE = 1024;
    private static final int FEWEST_FILES = 2;
    private static final int FEWEST_REFUSALS = 4;

    public AuditRules {
        require("the size of a file", fileSize, SMALLEST_FILE);
        require("the number of files", files, FEWEST_FILES);
        require("the number of refusals a minute", refusals, FEWEST_REFUSALS);
    }

    private static void require(String what, long value, long least) {
        if (value < least) {
            throw new IllegalArgumentException(what + " must be " + least + " or more (was " + value + ")");
        }
    }
}
