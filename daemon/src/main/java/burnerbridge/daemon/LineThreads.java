package burnerbridge.daemon;

import burnerbridge.model.VitalThread;
import burnerbridge.site.LineDefinition;
import java.lang.Thread.UncaughtExceptionHandler;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Makes the thread of each line: a virtual one for TCP from Java 24 on, otherwise one of the platform. A
 * serial line waits in native code, by which a virtual thread keeps its carrier from all others; below
 * Java 24 every synchronized block did the same.
 */
final class LineThreads {
    private static final Logger LOG = LoggerFactory.getLogger(LineThreads.class);
    private static final int FIRST_WITH_USEFUL_ONES = 24;

    private final boolean virtual;

    private LineThreads(boolean virtual) {
        this.virtual = virtual;
    }

    /** Those that suit the Java that runs this. */
    static LineThreads ofThisJava() {
        return ofJava(Runtime.version().feature());
    }

    static LineThreads ofJava(int feature) {
        return new LineThreads(feature >= FIRST_WITH_USEFUL_ONES);
    }

    static LineThreads ofThePlatform() {
        return new LineThreads(false);
    }

    /** The thread of a line, named after it and not started; it ends the process if it dies. */
    Thread of(LineDefinition line, Runnable work) {
        String name = "line " + line.name();
        boolean blocksNatively = line.endpoint() instanceof LineDefinition.Serial;
        return virtual && !blocksNatively ? virtual(name, work) : platform(name, work);
    }

    /** A thread of the platform that keeps no process alive, and ends it if it dies. */
    static Thread platform(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler(new VitalThread());
        return thread;
    }

    /** By reflection, since the code is compiled for a Java without virtual threads. */
    private static Thread virtual(String name, Runnable work) {
        try {
            Class<?> type = Class.forName("java.lang.Thread$Builder");
            Object builder = Thread.class.getMethod("ofVirtual").invoke(null);
            call(type, "name", String.class, builder, name);
            call(type, "uncaughtExceptionHandler", UncaughtExceptionHandler.class, builder, new VitalThread());
            Method unstarted = type.getMethod("unstarted", Runnable.class);
            return (Thread) unstarted.invoke(builder, work);
        } catch (ClassNotFoundException
                | NoSuchMethodException
                | IllegalAccessException
                | InvocationTargetException e) {
            LOG.debug("{}: no virtual thread to be had: {}", name, e.toString());
            return platform(name, work);
        }
    }

    private static void call(Class<?> type, String method, Class<?> parameter, Object builder, Object argument)
            throws NoSuchMethodException, IllegalAccessException, InvocationTargetException {
        type.getMethod(method, parameter).invoke(builder, argument);
    }
}
