package burnerbridge.benchmark.bacnet.client;

import java.nio.ByteBuffer;

/** What is asked. Objects are gone through in steps that lie far apart, each as often as the others. */
public enum Service {
    READ_PROPERTY("ReadProperty") {
        @Override
        int fill(ByteBuffer frame, int invokeId, Walk walk) {
            return Frames.readProperty(frame, invokeId, walk.next());
        }
    },
    READ_PROPERTY_MULTIPLE("ReadPropertyMultiple of 20") {
        @Override
        int fill(ByteBuffer frame, int invokeId, Walk walk) {
            int[] inputs = new int[SEVERAL];
            for (int i = 0; i < SEVERAL; i++) {
                inputs[i] = walk.next();
            }
            return Frames.readPropertyMultiple(frame, invokeId, inputs);
        }
    };

    private static final int SEVERAL = 20;

    private final String title;

    Service(String title) {
        this.title = title;
    }

    public String title() {
        return title;
    }

    /** Makes a request; says how long its reply must be. */
    abstract int fill(ByteBuffer frame, int invokeId, Walk walk);

    /** Instances from 1 to a number. */
    static final class Walk {
        /** A prime, so that it meets all of any number that it does not divide. */
        private static final int STEP = 7919;

        private final int objects;
        private int at;

        Walk(int objects) {
            this.objects = objects;
        }

        int next() {
            at = (at + STEP) % objects;
            return at + 1;
        }
    }
}
