// SPDX-License-Identifier: MIT
// What the specimen shows in each language. Words from memory, for looking at letters only; none of
// them goes into a booklet.
#pragma once

namespace tickleaf::testing {

struct Specimen {
    const char* language; ///< BCP 47
    const char* file;     ///< of the Declaration
    const char* name;     ///< of the language, in itself
    const char* sets;
    const char* repetitions;
    const char* weight;
    const char* kilograms;
    const char* range;   ///< right to left in words, so that it cannot be read the wrong way round
    const char* warning; ///< stop at once if the pain gets worse (call NUMBER)
};

inline constexpr Specimen kSpecimens[] = {
    {"ar", "arb", "العربية", "مجموعات", "تكرارات", "الوزن", "كغ", "من {low} إلى {high}",
     "توقف فورًا إذا اشتد الألم (اتصل بالعيادة: {tel})."},
    {"fa", "pes_1", "فارسی", "ست", "تکرار", "وزنه", "کیلوگرم", "{low} تا {high}",
     "اگر درد بیشتر شد فوراً متوقف شوید (تلفن درمانگاه: {tel})."},
    {"ur", "urd", "اردو", "سیٹ", "دہراؤ", "وزن", "کلوگرام", "{low} سے {high}",
     "اگر درد بڑھ جائے تو فوراً رک جائیں (کلینک کا فون: {tel})۔"},
    {"he", "heb", "עברית", "סטים", "חזרות", "משקל", "ק״ג", "{low} עד {high}",
     "הפסיקו מיד אם הכאב מתגבר (טל׳ המרפאה: {tel})."},
    {"hi", "hin", "हिन्दी", "सेट", "दोहराव", "वज़न", "किग्रा", "{low}–{high}",
     "दर्द बढ़े तो तुरंत रुक जाएँ (क्लिनिक को फ़ोन करें: {tel})।"},
    {"bn", "ben", "বাংলা", "সেট", "কতবার", "ওজন", "কেজি", "{low}–{high}",
     "ব্যথা বাড়লে সঙ্গে সঙ্গে থামুন (ক্লিনিকের ফোন: {tel})।"},
    {"ta", "tam", "தமிழ்", "தொகுப்புகள்", "முறைகள்", "எடை", "கிகி", "{low}–{high}",
     "வலி அதிகமானால் உடனே நிறுத்துங்கள் ({tel})."},
    {"th", "tha", "ไทย", "เซต", "ครั้ง", "น้ำหนัก", "กก.", "{low}–{high}",
     "หยุดทันทีถ้าปวดมากขึ้น (โทร. {tel})"},
    {"km", "khm", "ខ្មែរ", "ឈុត", "ចំនួនដង", "ទម្ងន់", "គ.ក.", "{low}–{high}",
     "ឈប់ភ្លាមបើឈឺខ្លាំងឡើង ({tel})។"},
    {"lo", "lao", "ລາວ", "ຊຸດ", "ຄັ້ງ", "ນ້ຳໜັກ", "ກກ.", "{low}–{high}", "ຢຸດທັນທີຖ້າເຈັບຫຼາຍຂຶ້ນ (ໂທ {tel})"},
    {"my", "mya", "မြန်မာ", "အကြိမ်စု", "အကြိမ်", "အလေးချိန်", "ကီလို", "{low}–{high}",
     "နာကျင်မှုပိုလာပါကချက်ချင်းရပ်ပါ ({tel})။"},
    {"am", "amh", "አማርኛ", "ዙር", "ድግግሞሽ", "ክብደት", "ኪ.ግ", "{low}–{high}",
     "ህመሙ ከጨመረ ወዲያውኑ ያቁሙ (ስልክ፦ {tel})።"},
    {"zh-Hans", "cmn_hans", "简体中文", "组数", "次数", "重量", "公斤", "{low}–{high}",
     "如果疼痛加重，请立即停止（诊所电话：{tel}）。"},
    {"zh-Hant", "cmn_hant", "繁體中文", "組數", "次數", "重量", "公斤", "{low}–{high}",
     "如果疼痛加重，請立即停止（診所電話：{tel}）。"},
    {"ja", "jpn", "日本語", "セット数", "回数", "重さ", "kg", "{low}–{high}",
     "痛みが強くなったら、すぐに中止してください（電話：{tel}）。"},
    {"ko", "kor", "한국어", "세트", "반복 횟수", "무게", "kg", "{low}–{high}",
     "통증이 심해지면 바로 멈추세요(전화: {tel})."},
    {"el", "ell_monotonic", "Ελληνικά", "Σετ", "Επαναλήψεις", "Βάρος", "κ.", "{low}–{high}",
     "Σταματήστε αμέσως αν ο πόνος δυναμώσει (τηλ. {tel})."},
    {"ru", "rus", "Русский", "Подходы", "Повторения", "Вес", "кг", "{low}–{high}",
     "Сразу остановитесь, если боль усилится (тел. {tel})."},
    {"sr", "srp_cyrl", "Српски", "Серије", "Понављања", "Тег", "кг", "{low}–{high}",
     "Одмах престаните ако бол постане јачи (тел. {tel}). бгдпт"},
    {"bg", "bul", "Български", "Серии", "Повторения", "Тежест", "кг", "{low}–{high}",
     "Спрете веднага, ако болката се засили (тел. {tel}). вгджзийклптцшщю"},
    {"vi", "vie", "Tiếng Việt", "Số hiệp", "Số lần lặp", "Tạ", "kg", "{low}–{high}",
     "Ngừng ngay nếu đau nhiều hơn (điện thoại: {tel}). ẪẬẮẶỄỆỖỘỠỢỮỰ"},
    {"pl", "pol", "Polski", "Serie", "Powtórzenia", "Ciężar", "kg", "{low}–{high}",
     "Natychmiast przerwij, jeśli ból się nasili (tel. {tel}). ĆŃÓŚŹ ćńóśź"},
    {"tr", "tur", "Türkçe", "Set", "Tekrar", "Ağırlık", "kg", "{low}–{high}",
     "Ağrı artarsa hemen durun (tel. {tel}). fizik, İstanbul, ılık"},
};

} // namespace tickleaf::testing
