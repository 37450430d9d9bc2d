package burnerbridge.poll.pace;

/**
 * Something that says that it is busy, and is left alone for a while that grows, until it says anything else.
 * That is told once it has been so for long, and so is its end.
 */
public final class Busy {
    private final Pause pause = Pause.ofBusy();
    private boolean told;

    /** It is busy; says whether it now has been for so long that it is worth telling. */
    public boolean again(long now) {
        boolean worth = pause.grow(now).equals(Pause.LONGEST_BUSY) && !told;
        told = told || worth;
        return worth;
    }

    public boolean isSo() {
        return pause.isUnderWay();
    }

    /** The first moment at or after a tick at which it may be asked. */
    public long notBefore(long tick) {
        return pause.notBefore(tick);
    }

    /** It is not busy any more; says whether it was told that it is. */
    public boolean isOver() {
        boolean was = told;
        pause.end();
        told = false;
        return was;
    }
}
