//! Every work this program takes a number from. A constant per work, so that the compiler finds a
//! citation that leads nowhere.

use super::Work;

macro_rules! works {
    ($($name:ident, $key:literal, $citation:literal;)*) => {
        $(
            #[doc = $citation]
            pub const $name: Work = Work { key: $key, citation: $citation };
        )*

        /// All of them, in order of their keys.
        pub const BIBLIOGRAPHY: &[Work] = &[$($name),*];
    };
}

works! {
    ARAMBERRI_2003, "aramberri-2003", "Aramberri, J Cataract Refract Surg 2003;29:2063-2068";
    ARAVIND_TRIALS, "aravind-trials", "Aravind hospitals, trainees' complications by technique";
    BJO_1978, "bjo-1978", "Br J Ophthalmol 1978;62:474 (depth of the chamber before and after lens removal)";
    BMC_2017_44, "bmc-2017-44", "BMC Ophthalmol 2017;17:44 (lens power after corneal refractive surgery)";
    CHANG_2005, "chang-2005", "Chang & Campbell, J Cataract Refract Surg 2005;31:664";
    CLINICAL_NOTES, "clinical-notes", "Summary pages for clinicians, no single publication";
    COLLEGE_2010, "college-2010", "College guideline on cataract surgery, 2010";
    COOKE_2019, "cooke-2019", "Cooke & Cooke, sum of segments, 2019";
    DUBBELMAN_2002, "dubbelman-2002", "Dubbelman, Acta Ophthalmol Scand 2002;80:406";
    DUBEY_2012, "dubey-2012", "Dubey, Ophthalmology 2012 (power change for the ciliary sulcus)";
    ENDOTHELIUM_61, "endothelium-61", "Series of 61 eyes with fewer than 1000 endothelial cells/mm² before cataract surgery";
    FELIPE_2011, "felipe-2011", "Felipe, J Cataract Refract Surg 2011 (what is left of a cylinder off its axis)";
    FUCHS_64, "fuchs-64", "Series of 64 eyes with Fuchs dystrophy after cataract surgery";
    GOGGIN_2015, "goggin-2015", "Goggin, J Refract Surg 2015;31 (multiplier of keratometric astigmatism)";
    GULLSTRAND_1909, "gullstrand-1909", "Gullstrand, exact schematic eye No. 1, 1909";
    HAIGIS_2000, "haigis-2000", "Haigis, Lege, Miller, Schneider, Graefes Arch Clin Exp Ophthalmol 2000;238:765-773";
    HAIGIS_MYOPIC, "haigis-myopic", "Haigis, corneal radius after myopic laser surgery (summary page)";
    HAYASHI_1996, "hayashi-1996", "Hayashi 1996, risk factors for corneal endothelial injury";
    HOFFMANN_2010, "hoffmann-2010", "Hoffmann & Hütz, J Cataract Refract Surg 2010;36:1479 (15,448 patients)";
    HOFFER_1993, "hoffer-1993", "Hoffer, J Cataract Refract Surg 1993;19:700-712, errata 1994;20:677 and 2007;33:2-3";
    HOLLADAY_1988, "holladay-1988", "Holladay, Prager, Chandler et al., J Cataract Refract Surg 1988;14:17-24";
    HOLLADAY_TEACHING, "holladay-teaching", "Teaching page with an eye computed by Holladay 1";
    HOUSE, "house", "Our own value, not published";
    HSIB_2018, "hsib-2018", "National safety investigation of a wrong intraocular lens, HSIB I2017/012, 2018";
    HWANG_2015, "hwang-2015", "Hwang, J Ophthalmol 2015:210716";
    HYDROPHILIC_2017, "hydrophilic-2017", "BMC Ophthalmol 2017, hydrophilic acrylic after endothelial keratoplasty";
    INCISION_WIDTHS, "incision-widths", "Published incision widths of phacoemulsification and manual small-incision surgery";
    IOVS_1991, "iovs-1991", "Invest Ophthalmol Vis Sci 1991;32:2835 (stretching of a capsulorhexis)";
    ISO_8429, "iso-8429", "ISO 8429 (counting of angles on the eye)";
    JCLINMED_2021, "jclinmed-2021", "J Clin Med 2021;10:2270";
    JCRS_2004, "jcrs-2004", "J Cataract Refract Surg 2004;30:1268 (chamber depth by contact ultrasound and by light)";
    JCRS_2013, "jcrs-2013", "J Cataract Refract Surg 2013;39:739-744";
    JCRS_2017, "jcrs-2017", "J Cataract Refract Surg 2017;43:1149";
    JCRS_MOORFIELDS, "jcrs-moorfields", "J Cataract Refract Surg, 1379 patients, axial length between eyes";
    KNOX_CARTWRIGHT_2010, "knox-cartwright-2010", "Knox Cartwright, Eye 2010;24:894";
    KUCHLE_2000, "kuchle-2000", "Küchle, Am J Ophthalmol 2000;129:281";
    KJO_2020, "kjo-2020", "KJO 2020, endothelial density before cataract surgery";
    DISCRETE_POWERS_2024, "discrete-powers-2024", "Langenbucher, Br J Ophthalmol 2024;108:793";
    DEPTH_3MM, "depth-3mm", "Published comparison of eyes with anterior chamber depth under and over 3 mm";
    LANGENBUCHER_2022, "langenbucher-2022", "Langenbucher et al., PLOS ONE 2022;17:e0267352";
    LE_GRAND, "le-grand", "Le Grand, full theoretical eye (lecture-note table)";
    LENS_POWER_TOLERANCE, "lens-power-tolerance", "ISO 11979-2, tolerance of the labeled lens power (secondary page)";
    LIOU_BRENNAN_1997, "liou-brennan-1997", "Liou & Brennan, J Opt Soc Am A 1997;14:1684";
    LOCS_III, "locs-iii", "Lens Opacities Classification System III";
    LUNDSTROM_2018, "lundstrom-2018", "Lundström 2018, outcomes of 282,811 operations";
    MEASUREMENT_AGE_109, "measurement-age-109", "Report on 109 eyes measured again after more than 24 months";
    MELLES_2018, "melles-2018", "Melles, Holladay, Chang, Ophthalmology 2018;125:169-178";
    MUHTASEB_2004, "muhtaseb-2004", "Muhtaseb et al., Br J Ophthalmol 2004";
    NATIONAL_AUDIT_2024, "national-audit-2024", "National audit of 961,208 operations, Eye 2024, doi 10.1038/s41433-024-03344-2";
    NATIONAL_GUIDANCE_2017, "national-guidance-2017", "National guidance on cataract management, 2017";
    NATURAL_LOSS, "natural-loss", "Published natural loss of endothelial cells";
    NO_SOURCE, "common-practice", "Common practice, no published source";
    NORRBY_2008, "norrby-2008", "Norrby, J Cataract Refract Surg 2008;34:368-376";
    NUCLEUS_1995, "nucleus-1995", "Indian J Ophthalmol 1995, size of 130 nuclei";
    OLSEN_2014, "olsen-2014", "Olsen & Hoffmann, J Cataract Refract Surg 2014;40:764";
    OPTICS, "optics", "Plain optics and geometry";
    POPULATION_CHINA, "population-china", "28,709 cataract eyes of nine Chinese cities, PMC8045194";
    POPULATION_PORTUGAL, "population-portugal", "13,012 eyes, Portugal, PLOS ONE 2017;12:e0184837";
    POPULATION_14, "population-14", "Means and SDs of 14 population studies of biometry";
    POSTERIOR_928, "posterior-928", "Regression of posterior corneal astigmatism in 928 eyes, Am J Ophthalmol";
    PSEUDOEXFOLIATION_SIGNS, "pseudoexfoliation-signs", "Published signs of zonular risk in eyes with pseudoexfoliation";
    RAM_2010, "ram-2010", "Ram, 2010 (posterior polar cataract; abstract)";
    RECALLED, "recalled", "From memory, not read again";
    REPEATABILITY_2022, "repeatability-2022", "J Refract Surg 2022;38:120-127";
    RETZLAFF_1990, "retzlaff-1990", "Retzlaff, Sanders, Kraff, J Cataract Refract Surg 1990;16:333-340, erratum 1990;16:528";
    ROYAL_COLLEGE_2018, "royal-college-2018", "Royal college statement on the right lens, 2018";
    RULES_OF_THUMB, "rules-of-thumb", "Rules of thumb of biometry";
    SCHWARTZ_OPTICS, "schwartz-optics", "Schwartz, Geometrical and Visual Optics";
    SECOND_EYE_206, "second-eye-206", "ARVO abstract, second eye of 206 patients";
    SEITZMAN_2005, "seitzman-2005", "Seitzman, Ophthalmology 2005;112:441";
    SEVEN_CASES_2012, "seven-cases-2012", "Seven cases of a wrong lens, Ophthalmology 2012;119:2059";
    SHAMMAS_2003, "shammas-2003", "Shammas et al., Am J Ophthalmol 2003;136:426";
    SHEARD_2010, "sheard-2010", "Sheard, Smith, Cooke, J Cataract Refract Surg 2010;36:1829-1834";
    SICS_TRIALS, "sics-trials", "Trials of phacoemulsification against manual small-incision surgery";
    SILICONE_OIL, "silicone-oil", "Reports on biometry and lens power in eyes filled with silicone oil";
    STEEPLES_2016, "steeples-2016", "Steeples et al., Eye 2016;30:1049";
    SULCUS_LETTER, "sulcus-letter", "Letter on lens power for the ciliary sulcus";
    TEMPORAL_INCISION_2021, "temporal-incision-2021", "Front Med 2021;8:670337 (effect of a temporal incision of 2.8 mm, 200 eyes)";
    TENSION_RING_78, "tension-ring-78", "Trial of capsular tension rings in 78 eyes with pseudoexfoliation";
    TEXTBOOK, "textbook", "Textbook of ophthalmic biometry";
    THIBOS_1997, "thibos-1997", "Thibos, Wheeler, Horner, Optom Vis Sci 1997;74:367";
    TRANSLATION_2023, "tvst-2023", "Transl Vis Sci Technol 2023-24, constants as shifts of lens position";
    ULTRASOUND_COMPARISON, "ultrasound-comparison", "Comparisons of contact, immersion and optical axial length";
    VENKATESH_2010, "venkatesh-2010", "Venkatesh, J Cataract Refract Surg 2010 (white cataract, phacoemulsification against manual small-incision surgery)";
    WANG_KOCH_2018, "wang-koch-2018", "Wang & Koch, J Cataract Refract Surg 2018;44:1396";
    WHO_GRADING, "who-grading", "WHO simplified cataract grading";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique() {
        let mut keys: Vec<_> = BIBLIOGRAPHY.iter().map(|work| work.key).collect();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), BIBLIOGRAPHY.len());
    }
}
