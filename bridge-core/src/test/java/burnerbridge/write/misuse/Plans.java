package burnerbridge.write.misuse;

import burnerbridge.plan.LinePlan;

final class Plans {
    int blocks(LinePlan plan) {
        return plan.blocks().size();
    }
}
