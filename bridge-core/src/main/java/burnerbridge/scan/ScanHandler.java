package burnerbridge.scan;

import burnerbridge.control.Reply;
import burnerbridge.control.Request;
import burnerbridge.control.RequestException;
import burnerbridge.control.RequestHandler;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * Answers {@code {"ask":"plan","from":0,"most":20}}; all members but the first may be missing. The reply begins with
 * the number of rows there are as {@code "rows"}; then comes a line for each row of the part that was asked for, at
 * most {@value #MOST}.
 */
public final class ScanHandler implements RequestHandler {
    public static final String NAME = "plan";

    static final int MOST = 500;

    private final PollerScan scan;

    public ScanHandler(PollerScan scan) {
        this.scan = scan;
    }

    @Override
    public void answer(Request request, Reply reply) throws RequestException, IOException {
        List<ScanRow> part = new ArrayList<>();
        int rows = scan.read(request.count("from", 0), Math.min(MOST, request.count("most", MOST)), part::add);
        reply.line(json -> json.writeNumberProperty("rows", rows));
        for (ScanRow row : part) {
            reply.line(json -> ScanJson.write(json, row));
        }
    }
}
