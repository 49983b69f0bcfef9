// SPDX-License-Identifier: MIT
// Who the booklet is for and who prescribed it: without these nothing is printed.
#include "prescription/parts.h"

#include <algorithm>

#include "prescription/language_tag.h"
#include "prescription/notation.h"
#include "prescription/quantity.h"

namespace tickleaf::prescription {

namespace {

using support::Findings;

constexpr std::size_t kFewestPhoneDigits = 3;
constexpr std::size_t kFewestEmergencyDigits =
    2; ///< national short codes have two or three digits (value from memory)
constexpr std::size_t kMostPhoneDigits = 20; ///< 15 by ITU-T E.164, and an extension

void check_phone(const Located<std::string>& phone, const std::string& what, std::size_t fewest,
                 Findings& findings) {
    if (phone.value.empty()) {
        return;
    }
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    const auto digits =
        static_cast<std::size_t>(std::count_if(phone.value.begin(), phone.value.end(), is_digit));
    const bool only_phone_signs =
        phone.value.find_first_not_of("0123456789+()-./ extEXT") == std::string::npos;
    if (digits < fewest || digits > kMostPhoneDigits || !only_phone_signs) {
        findings.error(phone.span, "phone-number",
                       what + " is " + quoted(phone.value) + ", which cannot be dialled",
                       "write digits, spaces and a leading +, such as \"+44 1632 960123\"");
    }
}

void check_email(const std::optional<Located<std::string>>& email, Findings& findings) {
    if (!email) {
        return;
    }
    const std::string& text = email->value;
    const std::size_t at = text.find('@');
    const bool good =
        at != std::string::npos && at > 0 && text.find('@', at + 1) == std::string::npos &&
        text.find('.', at) != std::string::npos && text.find(' ') == std::string::npos;
    if (!good) {
        findings.error(email->span, "email-address",
                       "email is " + quoted(text) + ", which is no address",
                       "write name@example.org");
    }
}

std::vector<Located<std::string>> read_languages(FieldReader& reader, Findings& findings) {
    std::vector<Located<std::string>> good;
    const yaml::Node* node = reader.node("languages");
    if (node == nullptr) {
        return good;
    }
    if (node->kind == yaml::Node::Kind::List && node->items.empty()) {
        findings.error(node->span, "empty-value", "the patient has no language",
                       "write the patient's own language first, such as languages: [es, en]");
    }
    for (Located<std::string>& tag : reader.texts("languages")) {
        if (!is_language_tag(tag.value)) {
            findings.error(tag.span, "language-tag", quoted(tag.value) + " is no language tag",
                           language_tag_hint(tag.value));
            continue;
        }
        const bool twice =
            std::any_of(good.begin(), good.end(), [&](const Located<std::string>& other) {
                return is_same_tag(other.value, tag.value);
            });
        if (twice) {
            findings.error(tag.span, "language-twice",
                           "the language " + quoted(tag.value) + " is named twice", "keep it once");
            continue;
        }
        good.push_back(std::move(tag));
    }
    return good;
}

} // namespace

Patient read_patient(const yaml::Node& node, Findings& findings) {
    Patient patient;
    FieldReader reader(node, patient_fields(), findings);
    if (!reader.is_map()) {
        return patient;
    }
    patient.name = required_words(reader, "name", findings);
    patient.languages = read_languages(reader, findings);
    if (const yaml::Node* height = reader.node("height")) {
        const auto mm = read_length_mm(
            *height, {"the height", kShortestPatientMm, kTallestPatientMm, "162 cm"}, findings);
        if (mm) {
            patient.height_mm = Located<double>{*mm, height->span};
        }
    }
    reader.finish();
    return patient;
}

Clinic read_clinic(const yaml::Node& node, Findings& findings) {
    Clinic clinic;
    FieldReader reader(node, clinic_fields(), findings);
    if (!reader.is_map()) {
        return clinic;
    }
    clinic.name = free_text(reader, "name", findings);
    clinic.clinician = free_text(reader, "clinician", findings);
    clinic.phone = required_words(reader, "phone", findings);
    clinic.emergency = required_words(reader, "emergency", findings);
    clinic.email = reader.text("email");
    clinic.hours = free_text(reader, "hours", findings);
    clinic.address = free_text(reader, "address", findings);
    reader.finish();
    check_phone(clinic.phone, "phone", kFewestPhoneDigits, findings);
    check_phone(clinic.emergency, "emergency", kFewestEmergencyDigits, findings);
    check_email(clinic.email, findings);
    return clinic;
}

} // namespace tickleaf::prescription
