// SPDX-License-Identifier: MIT
// The translations that are tested: every script Tickleaf has fonts for and the package has a text
// in, and the languages with letters of their own.
#pragma once

#include "tests/text/declaration.h"

namespace tickleaf::testing {

inline constexpr Translation kTranslations[] = {
    {"ar", "arb"},           {"fa", "pes_1"},       {"ps", "pbu"},      {"ur", "urd"},
    {"ug", "uig_arab"},      {"he", "heb"},         {"yi", "ydd"},      {"dv", "div"},
    {"hi", "hin"},           {"mr", "mar"},         {"ne", "nep"},      {"bn", "ben"},
    {"pa", "pan"},           {"gu", "guj"},         {"ta", "tam"},      {"te", "tel"},
    {"kn", "kan"},           {"ml", "mal_chillus"}, {"si", "sin"},      {"th", "tha"},
    {"lo", "lao"},           {"km", "khm"},         {"my", "mya"},      {"bo", "bod"},
    {"jv-Java", "jav_java"}, {"am", "amh"},         {"ti", "tir"},      {"zh-Hans", "cmn_hans"},
    {"zh-Hant", "cmn_hant"}, {"ja", "jpn"},         {"ko", "kor"},      {"el", "ell_monotonic"},
    {"el", "ell_polytonic"}, {"ru", "rus"},         {"uk", "ukr"},      {"sr", "srp_cyrl"},
    {"bg", "bul"},           {"mn", "khk"},         {"kk", "kaz"},      {"vi", "vie"},
    {"pl", "pol"},           {"tr", "tur"},         {"cs", "ces"},      {"hu", "hun"},
    {"ro", "ron_2006"},      {"fr", "fra"},         {"de", "deu_1996"}, {"es", "spa"},
    {"pt-BR", "por_BR"},     {"en", "eng"},         {"ka", "kat"},      {"hy", "hye"},
    {"yo", "yor"},           {"ha", "hau_NG"},      {"az", "azj_latn"},
};

} // namespace tickleaf::testing
