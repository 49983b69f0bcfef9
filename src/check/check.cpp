// SPDX-License-Identifier: MIT
#include "check/check.h"

#include <algorithm>
#include <utility>

#include "check/rule_set.h"

namespace tickleaf::check {

namespace {

std::vector<CodedRule> all_rules() {
    std::vector<CodedRule> all;
    for (auto part : {dose_rules(), load_rules(), movement_rules(), frame_rules()}) {
        std::move(part.begin(), part.end(), std::back_inserter(all));
    }
    std::sort(all.begin(), all.end(),
              [](const CodedRule& a, const CodedRule& b) { return a.rule.id < b.rule.id; });
    return all;
}

const prescription::Waiver* waiver_of(const prescription::Prescription& rx, const std::string& id) {
    for (const prescription::Waiver& waiver : rx.waivers) {
        if (waiver.rule.value == id) {
            return &waiver;
        }
    }
    return nullptr;
}

/// A waiver must name a rule, and one that only warns: an error cannot be argued away.
void check_waivers(const prescription::Prescription& rx, support::Findings& findings) {
    std::vector<std::string> ids;
    for (const Rule& rule : rules()) {
        ids.push_back(rule.id);
    }
    for (const prescription::Waiver& waiver : rx.waivers) {
        const auto& all = rules();
        const auto found = std::find_if(
            all.begin(), all.end(), [&](const Rule& rule) { return rule.id == waiver.rule.value; });
        if (found == all.end()) {
            const std::string near = support::closest(waiver.rule.value, ids);
            findings.error(
                waiver.rule.span, "unknown-rule", "there is no rule \"" + waiver.rule.value + "\"",
                near.empty() ? "see \"tickleaf list rules\"" : "did you mean \"" + near + "\"?");
        } else if (found->severity == support::Severity::Error) {
            findings.error(waiver.rule.span, "rule-not-waivable",
                           "the rule \"" + waiver.rule.value + "\" cannot be switched off",
                           "mend what it found");
        }
    }
}

} // namespace

const std::vector<Rule>& rules() {
    static const std::vector<Rule> kRules = [] {
        std::vector<Rule> plain;
        for (const CodedRule& coded : all_rules()) {
            plain.push_back(coded.rule);
        }
        return plain;
    }();
    return kRules;
}

std::vector<Verdict> judge(const Subject& subject) {
    support::internal_error_if(subject.prescription == nullptr || subject.schedule == nullptr ||
                                   subject.exercises == nullptr || subject.solutions == nullptr ||
                                   subject.side_names == nullptr,
                               "check: the subject is not whole");
    std::vector<Verdict> verdicts;
    for (const CodedRule& coded : all_rules()) {
        Verdict verdict;
        verdict.rule = coded.rule;
        const bool warns = coded.rule.severity == support::Severity::Warning;
        const prescription::Waiver* waiver =
            warns ? waiver_of(*subject.prescription, coded.rule.id) : nullptr;
        verdict.reason = waiver != nullptr ? waiver->reason.value : "";
        coded.look(subject, [&](const support::Span& span, std::string message, std::string hint) {
            verdict.found.push_back(
                {coded.rule.severity, span, coded.rule.id, std::move(message), std::move(hint)});
        });
        if (!verdict.found.empty()) {
            verdict.outcome = !warns              ? Verdict::Outcome::Failed
                              : waiver != nullptr ? Verdict::Outcome::Waived
                                                  : Verdict::Outcome::Warned;
        }
        verdicts.push_back(std::move(verdict));
    }
    return verdicts;
}

void report(const Subject& subject, const std::vector<Verdict>& verdicts,
            support::Findings& findings) {
    check_waivers(*subject.prescription, findings);
    for (const Verdict& verdict : verdicts) {
        for (support::Finding finding : verdict.found) {
            if (verdict.outcome == Verdict::Outcome::Waived) {
                findings.note(finding.span, finding.id,
                              finding.message + " (waived: " + verdict.reason + ")");
                continue;
            }
            if (verdict.outcome == Verdict::Outcome::Warned) {
                finding.hint += (finding.hint.empty() ? "" : "; ") +
                                ("or waive it with a reason under \"waive\": " + finding.id);
            }
            findings.add(std::move(finding));
        }
    }
}

void check(const Subject& subject, support::Findings& findings) {
    report(subject, judge(subject), findings);
}

} // namespace tickleaf::check
