package burnerbridge.misuse;

import burnerbridge.line.Request;
import burnerbridge.line.WriteTemplate;
import burnerbridge.line.frame.WriteRequest;

final class MakesARequest {
    Request request(WriteTemplate template) {
        return new WriteRequest(template, new byte[] {6, 0, 1, 0, 3});
    }
}
