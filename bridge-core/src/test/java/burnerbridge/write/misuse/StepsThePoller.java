package burnerbridge.write.misuse;

import burnerbridge.poll.LinePoller;

final class StepsThePoller {
    long step(LinePoller poller) {
        return poller.step();
    }
}
