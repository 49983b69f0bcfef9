// SPDX-License-Identifier: MIT
#include "pdf/colour_profile.h"

#include <array>
#include <memory>

#include <lcms2.h>

namespace tickleaf::pdf {

namespace {

constexpr double kVersion = 4.2;
/// Bytes 24 to 35 of the header: year, month, day, hours, minutes, seconds, two bytes each.
constexpr std::size_t kDateOffset = 24;
constexpr std::array<char, 12> kDate{'\x07', '\xD0', 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};

struct Close {
    void operator()(void* profile) const { cmsCloseProfile(profile); }
};

} // namespace

std::string srgb_profile() {
    const std::unique_ptr<void, Close> profile(cmsCreate_sRGBProfile());
    cmsUInt32Number size = 0;
    if (!profile) {
        return {};
    }
    cmsSetProfileVersion(profile.get(), kVersion);
    if (cmsSaveProfileToMem(profile.get(), nullptr, &size) == 0 || size < 128) {
        return {};
    }
    std::string bytes(size, '\0');
    if (cmsSaveProfileToMem(profile.get(), bytes.data(), &size) == 0) {
        return {};
    }
    bytes.replace(kDateOffset, kDate.size(), kDate.data(), kDate.size());
    return bytes;
}

} // namespace tickleaf::pdf
