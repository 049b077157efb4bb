/** Molar gas constant, J/(mol K): exact in the SI of 2019, here to ten digits. */
export const GAS_CONSTANT_J_PER_MOL_K = 8.314462618;
