// SPDX-License-Identifier: MIT
#include "prescription/limit.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "prescription/notation.h"
#include "support/number.h"
#include "yaml/reader.h"

namespace tickleaf::prescription {

namespace {

using Kind = Token::Kind;

constexpr const char* kSyntax = "limit-syntax";
constexpr double kMostDegrees = 180.0;
constexpr const char* kForms = "write \"right ankle inversion at most 10 degrees\", \"no impact\", "
                               "\"no weight on right leg\" or \"partial "
                               "weight on right leg\"";

struct Joint {
    std::string name;
    std::vector<std::string> movements;
};

/// Movements by joint, in the terms of the handbooks (AAOS 1965; value from memory: the terms, no
/// numbers).
const std::vector<Joint>& joints() {
    static const std::vector<Joint> table = {
        {"ankle", {"dorsiflexion", "plantarflexion", "inversion", "eversion"}},
        {"knee", {"flexion", "extension"}},
        {"hip",
         {"flexion", "extension", "abduction", "adduction", "medial rotation", "lateral rotation"}},
        {"shoulder",
         {"flexion", "extension", "abduction", "adduction", "medial rotation", "lateral rotation"}},
        {"elbow", {"flexion", "extension"}},
        {"forearm", {"pronation", "supination"}},
        {"wrist", {"flexion", "extension", "radial deviation", "ulnar deviation"}},
        {"neck", {"flexion", "extension", "lateral flexion", "rotation"}},
        {"trunk", {"flexion", "extension", "lateral flexion", "rotation"}},
    };
    return table;
}

class LimitParser {
  public:
    LimitParser(const yaml::Node& node, support::Findings& findings)
        : phrase_(node, "limit", kSyntax, findings) {
        limit_.span = node.span;
        limit_.as_written = node.text;
    }

    std::optional<Limit> parse() {
        const bool good = body() && end();
        return good ? std::optional<Limit>(limit_) : std::nullopt;
    }

  private:
    bool body() {
        if (phrase_.accept_word("no")) {
            if (phrase_.accept_word("impact")) {
                limit_.kind = Limit::Kind::NoImpact;
                return true;
            }
            limit_.kind = Limit::Kind::NoWeightBearing;
            return weight({"impact", "weight"});
        }
        if (phrase_.accept_word("partial")) {
            limit_.kind = Limit::Kind::PartialWeightBearing;
            return weight({"weight"});
        }
        limit_.kind = Limit::Kind::JointAngle;
        side();
        return joint() && movement() && at_most();
    }

    bool weight(const std::vector<std::string>& expected) {
        return word("weight", expected) && word("on", {"on"}) && part();
    }

    bool part() {
        side();
        const Token& token = phrase_.peek();
        const std::string name = lower_case(token.text);
        if (name != "leg" && name != "arm") {
            return unknown(token, "leg or arm", {"leg", "arm", "left", "right", "both"});
        }
        limit_.joint = name;
        phrase_.take();
        return true;
    }

    void side() {
        const auto side = phrase_.at(Kind::Word)
                              ? support::side_from_word(lower_case(phrase_.peek().text))
                              : std::nullopt;
        if (side && *side != support::Side::None) {
            limit_.side = *side;
            phrase_.take();
        }
    }

    bool joint() {
        const Token& token = phrase_.peek();
        std::string name = lower_case(token.text);
        if (limit_.side == support::Side::Both && name.size() > 1 && name.back() == 's') {
            name.pop_back(); // "both ankles", "both knees"
        }
        std::vector<std::string> known = {"left", "right", "no", "partial"};
        for (const Joint& candidate : joints()) {
            if (candidate.name == name) {
                joint_ = &candidate;
                limit_.joint = name;
                phrase_.take();
                return true;
            }
            known.push_back(candidate.name);
        }
        return unknown(token, "a joint", known);
    }

    bool movement() {
        const Token start = phrase_.peek();
        while (phrase_.at(Kind::Word) && !phrase_.at_word("at")) {
            const std::string next = lower_case(phrase_.take().text);
            limit_.movement += (limit_.movement.empty() ? "" : " ") + next;
        }
        if (limit_.movement == "internal rotation" || limit_.movement == "external rotation") {
            limit_.movement =
                limit_.movement.front() == 'i' ? "medial rotation" : "lateral rotation";
        }
        const auto& known = joint_->movements;
        if (std::find(known.begin(), known.end(), limit_.movement) != known.end()) {
            return true;
        }
        std::string list;
        for (const std::string& name : known) {
            list += (list.empty() ? "" : ", ") + name;
        }
        const std::string found =
            limit_.movement.empty() ? phrase_.found(start) : '"' + limit_.movement + '"';
        const std::string near = did_you_mean(limit_.movement, known);
        phrase_.error(start,
                      found + " stands where a movement of the " + joint_->name +
                          " is expected: " + list,
                      near.empty() ? kForms : near);
        return false;
    }

    bool at_most() {
        if (!word("at", {"at"}) || !word("most", {"most"})) {
            return false;
        }
        const Token token = phrase_.peek();
        const auto degrees =
            token.kind == Kind::Number ? support::parse_decimal(token.text) : std::nullopt;
        if (!degrees) {
            return unknown(token, "a number of degrees", {});
        }
        if (*degrees > kMostDegrees) {
            phrase_.error(token, "no joint moves " + std::string(token.text) + " degrees",
                          "write an angle from 0 to 180 degrees");
            return false;
        }
        limit_.degrees = *degrees;
        phrase_.take();
        if (phrase_.at(Kind::Other) && phrase_.peek().text == "\u00B0") {
            phrase_.take();
            return true;
        }
        return phrase_.accept_word("degree") || word("degrees", {"degrees"});
    }

    bool word(std::string_view expected, const std::vector<std::string>& known) {
        if (phrase_.accept_word(expected)) {
            return true;
        }
        return unknown(phrase_.peek(), '"' + std::string(expected) + '"', known);
    }

    bool unknown(const Token& token, const std::string& expected,
                 const std::vector<std::string>& known) {
        const std::string near = did_you_mean(lower_case(token.text), known);
        phrase_.error(token, phrase_.found(token) + " stands where " + expected + " is expected",
                      near.empty() ? kForms : near);
        return false;
    }

    bool end() {
        if (phrase_.at_end()) {
            return true;
        }
        phrase_.error(phrase_.peek(), phrase_.found(phrase_.peek()) + " is left over", kForms);
        return false;
    }

    Phrase phrase_;
    Limit limit_;
    const Joint* joint_ = nullptr;
};

} // namespace

std::optional<Limit> read_limit(const yaml::Node& node, support::Findings& findings) {
    if (node.kind != yaml::Node::Kind::Scalar) {
        findings.error(node.span, kSyntax,
                       "a limit is " + yaml::describe(node) + ", but a text was expected", kForms);
        return std::nullopt;
    }
    return LimitParser(node, findings).parse();
}

} // namespace tickleaf::prescription
